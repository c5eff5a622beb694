"""What a group says once for all its plans, beside them."""
