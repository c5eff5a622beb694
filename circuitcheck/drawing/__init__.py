"""Where the parts and wires of a wiring drawing lie."""
