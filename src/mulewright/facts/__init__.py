"""Every computed quantity about a mule, with what it was computed from."""
