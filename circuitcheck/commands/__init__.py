"""One file for each command: what can be asked of it, its help, and what it does."""
