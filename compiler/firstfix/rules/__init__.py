"""A build to findings. One module per family; a rule is its id, level, basis, help and check together."""
