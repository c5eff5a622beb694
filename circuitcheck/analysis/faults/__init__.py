"""What one failure does: the faults that are supposed, the circuit with each of them, and what comes of it."""
