"""What shops offer: the types, and how a plan says them."""
