"""Checks of family S: from the stick to the pulse to what the device makes of it."""
