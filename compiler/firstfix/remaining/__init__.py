"""What is left to buy, to do and to read, from the work and purchases of a build and what its progress file says."""
