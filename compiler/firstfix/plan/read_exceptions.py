"""`exceptions:`: verdicts that the author accepts, each with the rule, the thing it is about, and the reason."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.finding.model import Exemption
from firstfix.source.fields import Fields
from firstfix.source.node import Node, Sequence, describe

_KEYS = ("rule", "subject", "reason")
_FORM = "{rule: channel-length, subject: desk--core, reason: measured, it works}"


def read_exceptions(fields: Fields, faults: Collector) -> Iterator[Exemption]:
    """Whether a rule of that id exists, and has something to say about the subject, is found out after the rules ran."""
    node = fields.value("exceptions")
    if node is None:
        return
    if not isinstance(node, Sequence):
        fields.wrong(node, f"'exceptions' is a list of entries such as '- {_FORM}', not {describe(node)}")
        return
    for item in node.items:
        spec = _read(item, faults)
        if spec is not None:
            yield spec


def _read(node: Node, faults: Collector) -> Exemption | None:
    entry = Fields(node, faults, "an exception", _KEYS)
    # Every missing key is reported, not just the first.
    missing = [key for key in _KEYS if not entry.require(key)]
    if missing:
        return None
    rule, subject, reason = (entry.text(key) for key in _KEYS)
    if rule is None or subject is None or reason is None:
        return None
    if not reason.strip():
        entry.wrong(
            entry.entries["reason"][1],
            "'reason' says why you accept this; an exception without a reason is none",
        )
        return None
    return Exemption(rule, subject, reason, node.span)
