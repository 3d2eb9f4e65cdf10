"""What a build makes only when somebody looks at it is then what it would have been at once."""

from firstfix.build.later import Later


def test_it_is_made_when_looked_at_and_only_once() -> None:
    made: list[str] = []

    def make() -> tuple[str, ...]:
        made.append("made")
        return ("a", "b", "c")

    later = Later(make)
    assert made == []
    assert list(later) == ["a", "b", "c"]
    assert (later[0], later[1:], len(later), "b" in later) == ("a", ("b", "c"), 3, True)
    assert made == ["made"]


def test_it_equals_its_tuple_from_either_side() -> None:
    known, later = (1, 2), Later(lambda: (1, 2))
    assert later == known
    assert known == later
    assert later == Later(lambda: (1, 2))
    assert later != (1, 3)
    assert (hash(later), repr(later)) == (hash((1, 2)), "(1, 2)")
