"""A circuit in, facts out: what holds in which states. Nothing here knows what is right or wrong."""
