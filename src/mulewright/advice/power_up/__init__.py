"""The first power-up of a mule, step by step, in the order that risks least."""
