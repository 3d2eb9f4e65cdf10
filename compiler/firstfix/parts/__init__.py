"""Parts: the library of neutral generic parts (data), and how a plan adds its own."""
