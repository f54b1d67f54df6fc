"""Checks of family M: motors, gears, lifts, arms, wheels."""
