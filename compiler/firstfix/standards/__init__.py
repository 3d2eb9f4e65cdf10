"""Published tables as typed data: one module per family, a source on every row.

Shelf: of our own it imports finding's Basis only.

The rows are CSV files under tables/; `table.py` reads them, and refuses a row that has no source.
Every loader is a cached function without arguments, so nothing is read before it is asked for.
"""
