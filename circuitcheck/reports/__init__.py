"""What a person or a machine reads: one file for each output."""
