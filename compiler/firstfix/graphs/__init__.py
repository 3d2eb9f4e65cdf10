"""Views of a build as graphs. Each is a function of a build and a presence, and says nothing about right or wrong."""
