"""What follows from verdicts: how sure they are, what to change, what to measure, what to choose."""
