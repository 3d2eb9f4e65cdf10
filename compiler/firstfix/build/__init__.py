"""The waist: one immutable model of the whole network as it will stand. Everything above makes it, everything below only reads it."""
