"""How the author wants the drawings to look."""

from typing import NamedTuple


class Looks(NamedTuple):
    """`theme`: light, dark or print (black on white). `paper`: a4 or letter, the pages of drawings.pdf. `credit`: at every foot."""

    theme: str = "light"
    paper: str = "a4"
    credit: str = ""


USUAL_LOOKS = Looks()
