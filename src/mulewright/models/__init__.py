"""Physics as pure functions of SI floats and arrays, each with its formula and its source."""
