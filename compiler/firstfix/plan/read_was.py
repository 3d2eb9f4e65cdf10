"""`was: old-name` on anything with a name: which id each thing had before it was renamed.

Takes what was read; gives id to old id. A thing in a renamed site has an old id too, since its own begins with the site's name.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple, Protocol

from firstfix.finding.collector import Collector
from firstfix.finding.model import Label
from firstfix.plan.model import SiteSpec, Written
from firstfix.source.fields import check_name
from firstfix.source.kinds import VALUE_KIND, WAS
from firstfix.source.node import Mapping, Node, Scalar, clip, describe, is_null


class Named(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def written(self) -> Written: ...


class _Claim(NamedTuple):
    id: str
    old: str
    node: Scalar


def renames(
    sites: Iterable[SiteSpec], kinds: Iterable[tuple[str, Iterable[Named]]], faults: Collector
) -> dict[str, str]:
    """`kinds`: the kind of id and what is of it. Ids as the build has them: `device:core`, `room:farm/study`."""
    ids: set[str] = set()
    claims: list[_Claim] = []
    found: dict[str, str] = {}
    for kind, things in kinds:
        for thing in things:
            node = thing.written.node
            if isinstance(node, Mapping) and "was" in node.entries:
                claims += _claim(kind, "", "", thing.name, node, faults)
    if claims:
        ids |= {f"{kind}:{thing.name}" for kind, things in kinds for thing in things}
    for site in sites:
        found |= _in_site(site, claims, ids, faults)
    return found | _free(claims, ids, faults)


def _in_site(site: SiteSpec, claims: list[_Claim], ids: set[str], faults: Collector) -> dict[str, str]:
    """Claims of the site and of what is in it, and what moves with the site's own name."""
    own = list(_claim("site", "", "", site.name, site.written.node, faults))
    claims += own
    before = own[0].old.partition(":")[2] if own else site.name
    ids.add(f"site:{site.name}")
    moved: dict[str, str] = {}
    things: list[tuple[str, Named]] = [("building", each) for each in site.buildings]
    things += [("room", room) for each in site.buildings for room in each.rooms]
    for kind, thing in things:
        ids.add(f"{kind}:{site.name}/{thing.name}")
        is_the_site = thing.written.node is site.written.node
        said = () if is_the_site else _claim(
            kind, f"{site.name}/", f"{before}/", thing.name, thing.written.node, faults
        )  # fmt: skip
        new = list(said)
        claims += new
        if own and not new:
            name = before if is_the_site else thing.name
            moved[f"{kind}:{site.name}/{thing.name}"] = f"{kind}:{before}/{name}"
    return moved


def _claim(
    kind: str, folder: str, old_folder: str, name: str, node: Node, faults: Collector
) -> Iterator[_Claim]:
    value = node.value("was") if isinstance(node, Mapping) else None
    if value is None or is_null(value):
        return
    if not isinstance(value, Scalar):
        faults.add(VALUE_KIND, f"'was' is the name before, not {describe(value)}", value.span)
    elif check_name(value.text, value, faults):
        yield _Claim(f"{kind}:{folder}{name}", f"{kind}:{old_folder}{value.text}", value)


def _free(claims: Iterable[_Claim], ids: set[str], faults: Collector) -> dict[str, str]:
    """The claims that stand: the old name is nobody's now, except one's who has another old name, and is claimed once."""
    renamed = {claim.id for claim in claims}
    first: dict[str, _Claim] = {}
    for claim in claims:
        shown = clip(claim.node.text)
        other = first.get(claim.old)
        if claim.old == claim.id:
            faults.add(WAS, f"'{shown}' is what it is called now", claim.node.span, shown)
        elif other is not None:
            related = (Label(other.node.span, "claimed here"),)
            faults.add(
                WAS, f"'{shown}' is the old name of another thing already", claim.node.span, shown, related
            )
        elif claim.old in ids and claim.old not in renamed:
            kind = claim.old.partition(":")[0]
            faults.add(
                WAS,
                f"there still is a {kind} '{shown}', so this cannot be what it was",
                claim.node.span,
                shown,
            )
        else:
            first[claim.old] = claim
    return {claim.id: claim.old for claim in first.values()}
