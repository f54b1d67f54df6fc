"""Mulewright: from one description of a rough, driveable stand-in to honest verdicts about it."""

__version__ = "0.1.0"
