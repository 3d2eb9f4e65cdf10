"""`python -m firstfix` is the command `firstfix`."""

import sys

from firstfix.cli.entry import main

sys.exit(main())
