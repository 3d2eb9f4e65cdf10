"""Pure methods on plain graphs: assignment, shortest routes, connectivity. Leaf: no plan, no build, no findings.

networkx has the last two, better tested than ours could be; but importing it takes longer than the whole check of a home plan.
So these few functions stand on the path of `check`, and the tests hold each of them against networkx or exhaustive search.
"""
