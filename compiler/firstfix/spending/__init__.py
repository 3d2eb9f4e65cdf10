"""What the shopping list costs, held against what the plan allows for it."""
