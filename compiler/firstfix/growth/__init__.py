"""How far a network can grow: how many more of what is there already, until which limit, and what would lift that."""
