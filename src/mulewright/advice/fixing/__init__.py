"""What would clear what trips? Offers of single steps, a bench that tries them, a search for the best set of them."""
