"""Two builds: what changed between them, and what that means for the shopping."""
