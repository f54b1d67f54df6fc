"""Checks of family R: link, fail-safe, range, rules."""
