"""The wiring picture: power runs in from the left, commands run in from the right, they meet at the controllers."""
