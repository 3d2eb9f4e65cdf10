"""What three plans need, counted by hand: figures by part, and a cord's length and colour, each with how it was come by."""
