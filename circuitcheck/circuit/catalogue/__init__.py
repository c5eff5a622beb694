"""The kinds of parts a plan can name, one file for each family."""
