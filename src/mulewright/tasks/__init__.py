"""One function for each thing that a person does; the command line and the pages call these and nothing else."""
