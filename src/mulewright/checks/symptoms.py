"""Under which kind of trouble at the bench is a check looked up?"""

from __future__ import annotations

from enum import StrEnum


class Symptom(StrEnum):
    """Kinds of what a person notices, in the order in which they are listed; each is a heading."""

    STILL = "Does not move, or not far enough"
    WRONG = "Moves the wrong way, or the wrong thing moves"
    BY_ITSELF = "Moves by itself, or does not stop"
    COARSE = "Too quick or too coarse to control"
    WEAK = "Weak or slow"
    CUTS_OUT = "Cuts out, resets or loses the link"
    HOT = "Gets hot, smells, makes noise or breaks"
    FALLS = "Tips over, falls or comes loose"
    ON_PAPER = "Is not as it was worked out"
    NOTHING = "Nothing shows"
