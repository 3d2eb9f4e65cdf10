"""The worked checks as a whole: none is missing, and each says where it is from."""

from standards.worked import all_checks

# 51 and 52 are a whole network (graphs), 56 is the standard library's own, 59 to 65 are radio.
HERE = {*range(1, 51), 53, 54, 55, 57, 58, *range(66, 71)}


def test_every_check_is_there() -> None:
    assert {check.number for check in all_checks()} == HERE


def test_every_check_names_its_source() -> None:
    for check in all_checks():
        assert check.document, check
        assert check.clause, check
        assert check.note.startswith(("looked up", "from memory", "derived", "published", "verified")), check


def test_no_tolerance_is_so_wide_that_nothing_could_fail() -> None:
    for check in all_checks():
        if check.tolerance != "exact":
            assert 0 < float(check.tolerance) <= abs(float(check.expected)) / 16, check
