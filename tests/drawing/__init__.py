"""Tests of the wiring drawing."""
