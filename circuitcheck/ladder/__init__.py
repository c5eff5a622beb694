"""The circuit redrawn as a ladder, from what its wires do."""
