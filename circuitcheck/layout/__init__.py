"""One layout for every plan: the same statements and comments, in columns."""
