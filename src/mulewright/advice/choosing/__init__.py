"""Which parts serve a function: what can be tried, how well each candidate does, which are worth showing."""
