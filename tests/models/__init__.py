"""Models against printed tables, hand sums and independent programs."""
