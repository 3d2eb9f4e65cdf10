"""Loss of an optical link, and whether a signalling can live with its length and its loss."""

from collections.abc import Mapping
from typing import NamedTuple

from firstfix.physics.range import Summand, at_most, not_negative, total
from firstfix.standards.optical import FibreJoint, OpticalReach, fibre_joints
from firstfix.units import Decibels

# The name of one term of a link's loss, by which it is found again.
CONNECTORS = "connector pairs"


class LinkLoss(NamedTuple):
    """A link's loss [dB], its terms, and the part of it that its connectors take."""

    loss_db: Decibels
    connectors_db: Decibels
    terms: tuple[Summand, ...]


class OpticalVerdict(NamedTuple):
    """Length and loss are separate tests; both must be kept. `margin_db`: how much loss is left over."""

    length_sure: bool
    length_possible: bool
    loss_kept: bool
    connectors_kept: bool
    margin_db: Decibels


def link_loss(
    length_m: float,
    db_per_km: float,
    connector_pairs: int,
    splices: int,
    connector_db: float | None = None,
    splice_db: float | None = None,
    fibre_source: str = "",
) -> LinkLoss:
    """Highest loss of a link.

    loss = L a / 1000 + pairs * connector loss + splices * splice loss
    length_m L [m]; db_per_km a [dB/km], from standards.optical.fibre_loss or a data sheet; counts of joints;
    connector_db and splice_db [dB] each, the published highest where not given; fibre_source of a. Result [dB] with terms.
    Source: ANSI/TIA-568.3-D (2016), see standards.optical.
    """
    joints = fibre_joints()
    each_connector = joints["connector-pair"].loss_db if connector_db is None else connector_db
    each_splice = joints["splice"].loss_db if splice_db is None else splice_db
    fibre = not_negative("length", length_m, "m") * not_negative("loss", db_per_km, "dB/km") / 1000
    connectors = not_negative("connector pairs", connector_pairs) * not_negative(
        "connector loss", each_connector, "dB"
    )
    terms = (
        Summand(
            "fibre", fibre, f"{length_m:g} m at {db_per_km:g} dB/km{fibre_source and '; ' + fibre_source}"
        ),
        Summand(
            CONNECTORS,
            connectors,
            f"{connector_pairs} at {each_connector:g} dB{_by(joints, 'connector-pair', connector_db)}",
        ),
        Summand(
            "splices",
            not_negative("splices", splices) * not_negative("splice loss", each_splice, "dB"),
            f"{splices} at {each_splice:g} dB{_by(joints, 'splice', splice_db)}",
        ),
    )
    return LinkLoss(Decibels(total(terms)), Decibels(connectors), tuple(term for term in terms if term.value))


def _by(joints: Mapping[str, FibreJoint], joint: str, given: float | None) -> str:
    return f"; {joints[joint].basis}" if given is None else ""


def optical_verdict(length_m: float, loss: LinkLoss, reach: OpticalReach) -> OpticalVerdict:
    """Whether a link keeps both limits of a signalling over its grade of fibre.

    L <= sure_m (or possible_m); loss <= loss_max; connector loss <= its own maximum, where published
    length_m L [m]; loss: of the same link; reach: from standards.optical.optical_reach.
    Source: the row's own basis.
    """
    own_limit = reach.connector_loss_max_db
    return OpticalVerdict(
        at_most(length_m, reach.sure_m),
        at_most(length_m, reach.possible_m),
        at_most(loss.loss_db, reach.loss_max_db),
        own_limit is None or at_most(loss.connectors_db, own_limit),
        Decibels(reach.loss_max_db - loss.loss_db),
    )
