"""Exit codes, and what a user can mend: misuse of a command, a file that cannot be read or written."""

FINE = 0
FOUND = 1
TROUBLE = 2
OUR_FAULT = 3


class TroubleError(Exception):
    """Ends a command with exit code 2. The text is one sentence for the user."""
