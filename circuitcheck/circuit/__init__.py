"""Statements in, a circuit out: parts with their terminals, conductors, loads and the digits of its state."""
