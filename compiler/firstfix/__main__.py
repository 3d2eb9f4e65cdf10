"""`python -m firstfix` is the command `firstfix`."""

from firstfix.cli.entry import leave

leave()
