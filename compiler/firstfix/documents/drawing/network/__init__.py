"""The network as tables and the cables between them, laid out by Graphviz."""
