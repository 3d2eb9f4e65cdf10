"""From the build to what to do, in an order that never makes a step undo another."""
