"""Which control and which channel for which function? Exact, with its price line by line."""
