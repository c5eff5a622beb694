"""A finished box on the bench: what is set, what is measured, and what each fault would make otherwise."""
