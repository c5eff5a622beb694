"""Bench sheets and diagnoses."""
