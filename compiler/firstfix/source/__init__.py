"""Bytes to a tree of nodes, each with its place. No meaning yet: that is the plan's."""
