"""What is tested, layer by layer as the code itself; expected numbers name their source."""
