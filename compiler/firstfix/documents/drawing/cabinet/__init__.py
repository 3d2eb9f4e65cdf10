"""A cabinet to scale, and the list of what stands in it."""
