"""How motors start and how far they go on: the equations of a shaft, and which stop follows what."""
