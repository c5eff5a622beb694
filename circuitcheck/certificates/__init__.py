"""What was proved, written down so that something much smaller than the engine can confirm it."""
