"""Facts in, findings out: one file for each thing that can be wrong."""
