"""Power over Ethernet: what arrives, what the source must give, which class is granted, what is left."""

import math
from collections.abc import Iterable
from typing import NamedTuple

from firstfix.physics.copper import PoweredPairs
from firstfix.physics.range import OutOfRange, at_most, not_negative, positive, within
from firstfix.standards.poe import PoeClass, classes, demotion_levels, poe_limits
from firstfix.units import Amperes, Volts, Watts


class Delivery(NamedTuple):
    """Power on its way: the current, what leaves the source, what heats the cable, what arrives."""

    current_a: Amperes
    source_w: Watts
    loss_w: Watts
    device_w: Watts
    device_v: Volts


class Infeasible(NamedTuple):
    """No current brings the device what it asks: `most_w` is all that can pass this resistance."""

    asked_w: Watts
    most_w: Watts


class Assignment(NamedTuple):
    """The class that a device asked for and the one it is given; None: it is denied power."""

    requested: PoeClass
    granted: PoeClass | None

    @property
    def demoted(self) -> bool:
        return self.granted is not None and self.granted.pd_power_w < self.requested.pd_power_w

    @property
    def device_w(self) -> Watts:
        """What the device may draw; 0 W where it is denied."""
        return Watts(self.granted.pd_power_w if self.granted else 0.0)

    @property
    def reserved_w(self) -> Watts:
        """What the source must keep for it; 0 W where it is denied."""
        return Watts(self.granted.pse_power_w if self.granted else 0.0)


def poe_class(number: int) -> PoeClass:
    """The class of that number. Raises OutOfRange outside 0 to 8."""
    known = classes()
    if number not in known:
        raise OutOfRange("power class", number, min(known), max(known))
    return known[number]


def delivery_from_source(source_w: float, volts: float, ohms: float) -> Delivery:
    """What arrives when the source gives a stated power.

    I = P / V;  loss = I^2 R;  P_device = P - loss;  V_device = V - I R
    source_w P [W]; volts V [V] at the source; ohms R [ohm], loop. Result: Delivery.
    d.c.; the device's own input bridge is not counted. Valid while V_device stays above 0.
    Source: derived; gives every class's published device power, IEEE Std 802.3 Clauses 33 and 145.
    """
    current = not_negative("source power", source_w, "W") / positive("source voltage", volts, "V")
    loss = current**2 * not_negative("loop resistance", ohms, "Ω")
    if loss > source_w:
        raise OutOfRange("loop resistance", ohms, 0.0, volts / current, "Ω")
    return Delivery(
        Amperes(current), Watts(source_w), Watts(loss), Watts(source_w - loss), Volts(volts - current * ohms)
    )


def delivery_to_device(device_w: float, volts: float, ohms: float) -> Delivery | Infeasible:
    """What the source must give so that a device can draw a stated constant power.

    R I^2 - V I + P = 0, the smaller root: I = 2 P / (V + sqrt(V^2 - 4 R P));  P_source = V I
    device_w P [W]; volts V [V] at the source; ohms R [ohm], loop.
    Result: Delivery, or Infeasible where V^2 < 4 R P.
    The form of the root is the one that stays exact as R goes to 0.
    Source: derived; IEEE Std 802.3bt (2018), Clause 145 uses the same closed form, from memory.
    """
    not_negative("device power", device_w, "W")
    positive("source voltage", volts, "V")
    not_negative("loop resistance", ohms, "Ω")
    discriminant = volts**2 - 4 * ohms * device_w
    if discriminant < 0:
        # A hair below zero is rounding: there the root is double, and half of the voltage is lost.
        if not at_most(4 * ohms * device_w, volts**2):
            return Infeasible(Watts(device_w), Watts(volts**2 / (4 * ohms)))
        discriminant = 0.0
    current = 2 * device_w / (volts + math.sqrt(discriminant))
    loss = ohms * current**2
    return Delivery(
        Amperes(current), Watts(device_w + loss), Watts(loss), Watts(device_w), Volts(volts - current * ohms)
    )


def assigned_class(requested: int, source_w: float) -> Assignment:
    """The class a port grants to a device that asks for more or less than the port can give.

    The requested class if the port can reserve it; else the highest demotion level below it that it can.
    requested: class 0 to 8; source_w: what the port can still give [W]. Result: Assignment.
    Levels are class 3, 4, 6 (and 8), so a class 6 device on 45 W lands on class 4; below 3 power is denied.
    Source: IEEE Std 802.3bt (2018), Clause 145 (power demotion), see standards.poe.
    """
    not_negative("power of the port", source_w, "W")
    wanted = poe_class(requested)
    if at_most(wanted.pse_power_w, source_w):
        return Assignment(wanted, wanted)
    levels = [poe_class(level.level) for level in demotion_levels()]
    within_reach = [
        level for level in levels if level.number < requested and at_most(level.pse_power_w, source_w)
    ]
    return Assignment(wanted, max(within_reach, key=lambda level: level.number, default=None))


def assigned_on_port(requested: int, port_class: int) -> Assignment:
    """As assigned_class, for a port that is known by the highest class it supports."""
    return assigned_class(requested, poe_class(port_class).pse_power_w)


def reserved_power(granted: Iterable[int]) -> Watts:
    """What a source must keep when it reserves by class: the sum of the classes' source power.

    granted: class numbers. Result [W].
    Source: class table of IEEE Std 802.3 Clauses 33 and 145; reserving by class is common practice.
    """
    return Watts(math.fsum(poe_class(number).pse_power_w for number in granted))


def negotiated_power(device_w: float, granted: int) -> Watts:
    """What a source keeps for a device that asks for its power in steps of 0.1 W.

    P_source = V I  with  R I^2 - V I + P_asked = 0;  P_asked = the draw, rounded up to a step
    device_w: the draw at the device's input [W]; granted: its class, whose worst channel (R) and lowest voltage (V) are
    reckoned with, since a source does not know the cable. Result [W], the class's source power at the most.
    A draw above the class's is not granted: it is asked for as the class's.
    Source: IEEE Std 802.3bt (2018), Clauses 79 and 145 (fine allocation over the data link layer), from memory.
    """
    row = poe_class(granted)
    step = poe_limits().lldp_step.value
    # The tiny subtrahend keeps 12.9 / 0.1 = 129.000…01 from becoming 130.
    asked = min(math.ceil(not_negative("device power", device_w, "W") / step - 1e-9) * step, row.pd_power_w)
    given = delivery_to_device(asked, row.pse_min_v, row.loop_ohm)
    return Watts(row.pse_power_w if isinstance(given, Infeasible) else min(given.source_w, row.pse_power_w))


def conductor_current(delivery: Delivery, pairs: PoweredPairs) -> Amperes:
    """Current in each single conductor: half of the powered pairs carry it out, each with two wires.

    I_conductor = I / pairs
    delivery: as computed here; pairs: 2 or 4. Result [A]. Equal sharing; real pairs differ by a few percent.
    Source: derived.
    """
    return Amperes(delivery.current_a / pairs)


def lldp_steps(device_w: float) -> int:
    """A power as LLDP carries it: steps of 0.1 W at the device's input, rounded half up (12.95 W is 130).

    device_w [W]. Result: whole number, 1 to 999.
    Source: IEEE Std 802.3bt (2018), Clause 79, from memory, see standards.poe.
    """
    known = poe_limits()
    # The tiny addend keeps 12.95 / 0.1 = 129.499999… from being rounded down.
    steps = math.floor(not_negative("device power", device_w, "W") / known.lldp_step.value + 0.5 + 1e-9)
    within("LLDP power", steps, 1, known.lldp_most_steps.value)
    return steps


def lldp_power(steps: int) -> Watts:
    """The power that a number in LLDP means; the inverse of lldp_steps. Result [W]."""
    known = poe_limits()
    return Watts(within("LLDP power", steps, 1, known.lldp_most_steps.value) * known.lldp_step.value)


def cascade_budget(granted: int, own_draw_w: float, efficiency: float = 1.0) -> Watts:
    """What a powered device can hand on to devices behind it.

    P = (P_device(granted class) - own draw) * efficiency
    granted: the class it was really given; own_draw_w [W]; efficiency of conversion, 0.1 to 1. Result [W],
    negative where the device lacks power for itself. A pass-through figure of its data sheet is better.
    Source: common practice, no source.
    """
    spare = poe_class(granted).pd_power_w - not_negative("own draw", own_draw_w, "W")
    return Watts(spare * within("conversion efficiency", efficiency, 0.1, 1.0))


def converted_draw(own_draw_w: float, given_w: float, efficiency: float = 1.0) -> Watts:
    """What a thing that hands power on draws itself: the inverse of cascade_budget.

    P = own draw + given / efficiency
    own_draw_w, given_w [W]; efficiency of conversion, 0.1 to 1. Result [W].
    Source: energy is kept; that the own use does not depend on what is given is common practice, no source.
    """
    given = not_negative("power given", given_w, "W") / within("conversion efficiency", efficiency, 0.1, 1.0)
    return Watts(not_negative("own draw", own_draw_w, "W") + given)
