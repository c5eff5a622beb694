"""Sizes of small plans, a statement each."""
