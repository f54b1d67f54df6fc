"""Checks of family X: where a machine that works as described can hurt somebody."""
