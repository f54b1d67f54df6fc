"""Pages that are read off the code while they are built, so that they cannot grow old."""
