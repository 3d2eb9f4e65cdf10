"""A file of kept choices that is garbage, huge, or means something else: one clear finding, and the plan is judged without it."""

from pathlib import Path

import pytest

from allocations.keeping import compiled, kept_after, said
from firstfix.finding.model import Level
from resolve.planning import one_room

PLAN = one_room({"core": "switch-5", "desk": "computer-desktop"}, [{"run": ["desk", "core"]}])
RUN = "- {run: core--desk, jacks: [core/3, desk/1]}\n"

# Text of the file, and the kind of the one finding.
FAULTY = {
    "garbage": (b"\x00\xff\xfe\x01", "encoding"),
    "not yaml": (b"- {run: [\n", "syntax"),
    "a table": (b"run: core--desk\n", "value-kind"),
    "a word": (b"hello\n", "value-kind"),
    "a list of words": (b"- core/3\n", "value-kind"),
    "another table": (b"- {colour: red}\n", "value-kind"),
    "an unknown key": (b"- {run: core--desk, jacks: [core/3, desk/1], jack: 3}\n", "key-unknown"),
    "no jacks": (b"- {run: core--desk}\n", "key-missing"),
    "one place": (b"- {run: core--desk, jacks: [core/3]}\n", "value-kind"),
    "no place": (b"- {run: core--desk, jacks: []}\n", "value-kind"),
    "a number for jacks": (b"- {run: core--desk, jacks: [core/3, 4]}\n", "value-kind"),
    "two devices at one place": (b"- {run: core--desk, jacks: [[core/3, desk/1], desk/1]}\n", "value-kind"),
    "a table for a jack": (b"- {run: core--desk, jacks: [{core: 3}, desk/1]}\n", "value-kind"),
    "too many places": (b"- {run: a--b, jacks: [" + b"core/3, " * 50 + b"]}\n", "value-kind"),
    "a host below one": (b"- {device: desk, vlan: house, host: 0}\n", "value-kind"),
    "a host of many digits": (b"- {device: desk, vlan: house, host: 9" + b"9" * 5000 + b"}\n", "value-kind"),
    "a host in other digits": ("- {device: desk, vlan: house, host: ٣}\n".encode(), "value-kind"),
    "no vlan": (b"- {device: desk, host: 3}\n", "key-missing"),
    "no outlet": (b"- {device: desk, fed-by: core}\n", "key-missing"),
    "inlet nought": (b"- {device: desk, inlet: 0, fed-by: core, outlet: 1}\n", "value-kind"),
    "three rooms": (b"- {rooms: [a/b, a/c, a/d], ways: [x]}\n", "value-kind"),
    "rooms out of order": (b"- {rooms: [b/b, a/a], ways: [x]}\n", "value-kind"),
    "a key twice": (b"- {run: core--desk, run: core--desk, jacks: [core/3, desk/1]}\n", "key-duplicate"),
    "a tag": (b"- !!python/object:os.system {run: x}\n", "tag"),
    "deep": (b"- " + b"[" * 100 + b"]" * 100 + b"\n", "nesting-depth"),
    "aliases": (
        b"- &a [x, x, x, x, x, x, x, x, x]\n"
        + b"".join(
            b"- &%c [*%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c, *%c]\n" % (c + 1, c, c, c, c, c, c, c, c, c)
            for c in range(ord("a"), ord("k"))
        ),
        "alias-expansion",
    ),
    "huge": (b"# " + b"x" * (25 * 1024 * 1024), "file-size"),
    "two documents": (RUN.encode() + b"---\n" + RUN.encode(), "document-count"),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTY)
def test_one_finding_each_in_this_file(name: str, tmp_path: Path) -> None:
    data, kind = FAULTY[name]
    result = compiled(tmp_path, PLAN, data)
    found = [each for each in result.report.findings if each.level is Level.ERROR]
    assert [each.rule for each in found] == [kind], [each.message for each in found]
    assert found[0].primary is not None
    assert found[0].primary.file == "plan.allocations.yaml"
    assert len(found[0].message) < 400
    assert result.build is not None
    assert len(result.build.pieces) == 1


# Well formed, but about nothing there is, or not possible: notes, and everything is worked out anew.
BESIDE_THE_POINT = {
    "unknown run": "- {run: core--moon, jacks: [core/3, moon/1]}\n",
    "unknown device": "- {device: moon, vlan: house, host: 4}\n",
    "unknown rooms": "- {rooms: [moon/a, moon/b], ways: [x]}\n",
    "no such jack": "- {run: core--desk, jacks: [core/99, desk/1]}\n",
    "a jack of markup": '- {run: core--desk, jacks: ["core/<b>=1+1</b>", "desk/../../etc"]}\n',
    "fed by nothing": "- {device: desk, fed-by: moon, outlet: 1}\n",
    "fed by a room elsewhere": "- {device: desk, fed-by: home/moon, outlet: 1}\n",
    "fed by itself": "- {device: desk, fed-by: desk, outlet: 1}\n",
    "no router": "- {router: desk}\n",
    "two routers": "- {router: desk}\n- {router: core}\n",
    "a number nobody writes": "- {run: core--desk#999999999999, jacks: [core/3, desk/1]}\n",
    "a number in other digits": "- {run: core--desk#٣, jacks: [core/3, desk/1]}\n",
    "the number nought": "- {run: core--desk#0, jacks: [core/3, desk/1]}\n",
}


@pytest.mark.parametrize("name", BESIDE_THE_POINT)
def test_what_is_beside_the_point_does_no_harm(name: str, tmp_path: Path) -> None:
    result = compiled(tmp_path, PLAN, BESIDE_THE_POINT[name])
    assert not result.report.has_errors
    assert result.build is not None
    assert len(result.build.pieces) == 1
    text = kept_after(result)
    again = compiled(tmp_path, PLAN, text)
    assert said(again) == []
    assert kept_after(again) == text


@pytest.mark.parametrize("text", ["", "# nothing\n", "\n\n", "\ufeff# nothing\n"])
def test_an_empty_file_keeps_nothing(text: str, tmp_path: Path) -> None:
    result = compiled(tmp_path, PLAN, text)
    assert said(result) == []
    assert not result.report.has_errors


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    outside, inside = tmp_path / "outside.yaml", tmp_path / "plans"
    inside.mkdir()
    outside.write_text(RUN)
    compiled(inside, PLAN)
    (inside / "plan.allocations.yaml").symlink_to(outside)
    from firstfix.pipeline import compile_plan

    result = compile_plan(inside / "plan.yaml", "plan.yaml")
    errors = [each for each in result.report.findings if each.level is Level.ERROR]
    assert [each.message for each in errors] == ["plan.allocations.yaml leads out of the plan's own folder"]
    assert "core/3" not in kept_after(result)


@pytest.mark.parametrize("make", ["folder", "pipe", "circle"])
def test_what_is_no_ordinary_file_is_one_finding(make: str, tmp_path: Path) -> None:
    import os

    from firstfix.pipeline import compile_plan

    compiled(tmp_path, PLAN)
    beside = tmp_path / "plan.allocations.yaml"
    if make == "folder":
        beside.mkdir()
    elif make == "pipe":
        os.mkfifo(beside)
    else:
        beside.symlink_to(beside.name)
    result = compile_plan(tmp_path / "plan.yaml", "plan.yaml")
    assert [each.rule for each in result.report.findings if each.level is Level.ERROR] == ["include"]


def test_a_file_full_of_contradictions_is_read_once_and_not_listed_whole(tmp_path: Path) -> None:
    """Twenty thousand lines about one run, and as many about one host number."""
    count = 20_000
    kept = "".join(
        f"- {{run: core--desk, jacks: [core/{number}, desk/1]}}\n- {{device: desk, vlan: house, host: {number}}}\n"
        for number in range(1, count + 1)
    )
    result = compiled(tmp_path, PLAN, kept)
    assert not result.report.has_errors
    assert 0 < len(said(result)) < 400
    assert any("further kept choices" in each.message for each in result.report.findings)
    assert "core/1," in kept_after(result)
