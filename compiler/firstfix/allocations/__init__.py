"""Choices that an earlier build made and that this one keeps: what they are, how they are read, written and forgotten."""
