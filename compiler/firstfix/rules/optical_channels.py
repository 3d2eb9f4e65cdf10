"""Channels of fibre and of twinax, judged under the rule on channel length: by signalling, grade, loss and assembly.

Takes the rule to speak for, the channel's facts and the channel; gives its one outcome.
"""

from firstfix.build.cabling import Channel, Piece
from firstfix.finding.model import Basis, Cure, Label, Measurement, Term
from firstfix.graphs.optical_loss import channel_loss
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import CableForm
from firstfix.physics.fibre import CONNECTORS, LinkLoss, OpticalVerdict, optical_verdict
from firstfix.physics.range import at_most
from firstfix.rules.channel_facts import ChannelFacts
from firstfix.rules.channel_lengths import piece_terms
from firstfix.rules.rule import Fine, Outcome, Rule
from firstfix.standards.optical import OpticalReach, optical_reaches
from firstfix.standards.twisted_pair import twinax_reaches
from firstfix.units import metres, number, rate

# The windows are at 850, 1310 and 1550 nm; the tables call the second one 1300 or 1310 (IEEE Std 802.3).
_SAME_WINDOW_NM = 60


def judge_fibre(rule: Rule, facts: ChannelFacts, channel: Channel) -> Outcome:
    """Length and loss, by each signalling of the rate over the grade: all may fit, none, or it depends on the module."""
    at = facts.at(channel)
    pieces = facts.pieces(channel)
    grades = sorted({form.category.upper() for _, form in pieces})
    if len(grades) > 1:
        message = f"{facts.shown(channel)} joins fibre of {' and '.join(grades)}, between which most of the light is lost"
        basis = Basis("ANSI/TIA-568.3-D (2016)", "one type of fibre throughout a channel; from memory")
        return rule.finding(
            message,
            channel.id,
            at,
            cures=(Cure(f"use {grades[-1]} for cables and cords alike"),),
            basis=basis,
        )
    wanted = facts.rate(channel)
    missing = [each.length.figure.why for each, _ in pieces if isinstance(each.length.figure, Unknown)]
    if isinstance(wanted, Unknown):
        missing.append(wanted.why)
    if missing or isinstance(wanted, Unknown):
        return rule.cannot_tell(channel.id, at, *dict.fromkeys(missing))
    rows = [row for row in optical_reaches().values() if (row.rate_mbps, row.grade) == (wanted, grades[0])]
    if not rows:
        return rule.cannot_tell(channel.id, at, f"no reach is published for {rate(wanted)} over {grades[0]}")
    rows = _of_modules(rows, facts.wavelengths(channel))
    length = sum(_length(each) for each, _ in pieces)
    judged = [(row, *_judge(row, length, channel, pieces)) for row in rows]
    fitting = [row for row, _, verdict in judged if _keeps(verdict)]
    if len(fitting) == len(rows):
        return Fine(channel.id)
    if fitting:
        others = ", ".join(sorted(row.phy for row in rows if row not in fitting))
        doubt = f"which module is used: {', '.join(sorted(row.phy for row in fitting))} reaches, {others} does not"
        return rule.cannot_tell(channel.id, at, doubt)
    row, loss, verdict = max(judged, key=lambda each: (each[0].possible_m, each[0].phy))
    return _too_far(rule, facts, channel, length, row, loss, verdict)


def _of_modules(rows: list[OpticalReach], sent_nm: frozenset[float]) -> list[OpticalReach]:
    """Of the signallings those at the wavelength that both modules send; all of them where that is not known."""
    near = [row for row in rows if all(abs(each - row.wavelength_nm) <= _SAME_WINDOW_NM for each in sent_nm)]
    return near if sent_nm and near else rows


def _length(piece: Piece) -> float:
    figure = piece.length.figure
    return figure.high if isinstance(figure, Fact) else 0.0


def _judge(
    row: OpticalReach, length: float, channel: Channel, pieces: tuple[tuple[Piece, CableForm], ...]
) -> tuple[LinkLoss, OpticalVerdict]:
    loss = channel_loss(row.grade, row.wavelength_nm, length, channel, pieces)
    return loss, optical_verdict(length, loss, row)


def _keeps(verdict: OpticalVerdict) -> bool:
    return verdict.length_sure and verdict.loss_kept and verdict.connectors_kept


def _too_far(
    rule: Rule,
    facts: ChannelFacts,
    channel: Channel,
    length: float,
    row: OpticalReach,
    loss: LinkLoss,
    verdict: OpticalVerdict,
) -> Outcome:
    if not verdict.length_sure:
        what = f"{metres(length - row.sure_m)} too long"
        measurement = Measurement(
            "fibre as laid", length, "at most", row.sure_m, "m", piece_terms(facts.pieces(channel))
        )
    else:
        limit = row.loss_max_db if not verdict.loss_kept else row.connector_loss_max_db or row.loss_max_db
        figure = loss.loss_db if not verdict.loss_kept else loss.connectors_db
        of = "channel" if not verdict.loss_kept else "channel's connectors"
        what = f"loses {number(figure - limit)} dB too much"
        terms = tuple(Term(*each) for each in loss.terms if not verdict.loss_kept or each.what == CONNECTORS)
        measurement = Measurement(f"loss of the {of}", figure, "at most", limit, "dB", terms)
    needs = (Label(None, f"beyond its reach it needs {row.needs}"),) if row.needs else ()
    return rule.finding(
        f"{facts.shown(channel)}: {what} for {row.phy} over {row.grade}",
        channel.id,
        facts.at(channel),
        related=needs,
        measurement=measurement,
        cures=(Cure(f"use {_further(row.grade)}, or fewer joints, or a switch half way"),),
        basis=row.basis,
    )


def _further(grade: str) -> str:
    return "modules that reach further" if grade.startswith("OS") else "single-mode fibre and its modules"


def judge_twinax(rule: Rule, facts: ChannelFacts, channel: Channel) -> Outcome:
    """The length of a cord with its modules, against the published one of its kind; its category names the kind."""
    at = facts.at(channel)
    pieces = facts.pieces(channel)
    kind = pieces[0][1].category
    rows = [row for row in twinax_reaches() if row.phy == kind]
    missing = [each.length.figure.why for each, _ in pieces if isinstance(each.length.figure, Unknown)]
    if not rows:
        missing.append(f"no reach is published for twinax of the kind '{kind}' ('{pieces[0][0].part}')")
    if missing:
        return rule.cannot_tell(channel.id, at, *missing)
    row = rows[0]
    length = sum(_length(each) for each, _ in pieces)
    if at_most(length, row.length_m):
        return Fine(channel.id)
    return rule.finding(
        f"{facts.shown(channel)}: {metres(length - row.length_m)} too long for a passive twinax cord",
        channel.id,
        at,
        measurement=Measurement(
            "twinax", length, "at most", row.length_m, "m", piece_terms(facts.pieces(channel))
        ),
        cures=(Cure("use fibre with two modules"),),
        basis=row.basis,
    )
