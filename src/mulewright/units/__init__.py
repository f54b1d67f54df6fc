"""Text such as "12 mm" or "18 AWG" to SI and back: the one place where units are converted."""
