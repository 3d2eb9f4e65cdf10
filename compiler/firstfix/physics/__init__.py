"""Pure functions on figures with units: no plan, no findings, no files.

Shelf: of our own it imports units and standards only.

Each function says what it computes, by which equation, with which units, in which range, and on whose word.
Outside that range it raises `range.OutOfRange`; the rule that called it turns this into "cannot tell".
"""
