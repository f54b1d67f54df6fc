"""Checks of family H: what the machine to come adds to, or takes from, what the mule showed."""
