"""One function for each thing that a person does; all that the command line calls."""
