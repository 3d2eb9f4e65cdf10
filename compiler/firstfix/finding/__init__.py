"""What is wrong, where, by how much, on which source, and what cures it. Leaf; one renderer per format."""
