"""From the build to why a thing is as it is: written, kept or worked out, from what, and what else was possible."""
