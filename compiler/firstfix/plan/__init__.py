"""The tree as a typed, frozen plan: what the author said, no more. References are still names."""
