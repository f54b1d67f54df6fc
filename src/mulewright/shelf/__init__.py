"""The shelf: kinds of part, the parts themselves, and generic tables, with a source for every value."""
