"""When each step of the work is done: how long it takes, what waits for what, by how many hands, on which days."""
