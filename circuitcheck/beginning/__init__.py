"""A first plan of one's own, out of a few answers."""
