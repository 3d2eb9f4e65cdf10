from firstfix.build.looks import USUAL_LOOKS, Looks
from firstfix.plan.model import DrawingsSpec
from firstfix.resolve.looks import looks


def test_what_is_not_said_is_usual() -> None:
    assert looks(DrawingsSpec()) == USUAL_LOOKS == Looks("light", "a4", "")
    assert looks(DrawingsSpec(theme="print")) == Looks("print", "a4", "")


def test_what_is_said_is_kept() -> None:
    assert looks(DrawingsSpec("dark", "letter", "by us")) == Looks("dark", "letter", "by us")
