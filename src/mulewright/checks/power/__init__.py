"""Checks of family P: batteries, fuses, wires, regulators, the receiver rail."""
