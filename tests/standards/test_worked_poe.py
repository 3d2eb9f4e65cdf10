"""Worked checks 5 to 24: power over Ethernet."""

from firstfix.physics.copper import PoweredPairs, Stretch, powered_loop
from firstfix.physics.poe import (
    Delivery,
    Infeasible,
    assigned_class,
    cascade_budget,
    delivery_from_source,
    delivery_to_device,
    lldp_steps,
    reserved_power,
)
from firstfix.physics.range import at_most
from standards.worked import Calculations, Check, parametrized, verify


def numbers(text: str | int) -> list[int]:
    return [int(number) for number in str(text).split()]


def over_cable(
    device_w: float,
    volts: float,
    awg: float,
    length_m: float,
    pairs: PoweredPairs,
    celsius: float = 20.0,
    conductivity: float = 1.0,
) -> Delivery:
    loop = powered_loop([Stretch("cable", length_m, awg, celsius, conductivity)], 0, pairs)
    delivery = delivery_to_device(device_w, volts, loop.ohms)
    assert isinstance(delivery, Delivery)
    return delivery


def source_power(device_w: float, volts: float, ohms: float) -> float | str:
    delivery = delivery_to_device(device_w, volts, ohms)
    if isinstance(delivery, Infeasible):
        return f"infeasible above {delivery.most_w:g} W"
    return delivery.source_w


def current(device_w: float, volts: float, ohms: float) -> float:
    delivery = delivery_to_device(device_w, volts, ohms)
    assert isinstance(delivery, Delivery)
    return delivery.current_a


def assigned(requested: int, source_w: float) -> str:
    granted = assigned_class(requested, source_w).granted
    return f"class {granted.number} with {granted.pd_power_w:g} W" if granted else "denied"


def cascade_carries(granted: int, own_draw_w: float, classes: str | int) -> bool:
    return at_most(reserved_power(numbers(classes)), cascade_budget(granted, own_draw_w))


CALCULATIONS: Calculations = {
    "device power": lambda **given: delivery_from_source(**given).device_w,
    "loss": lambda **given: delivery_from_source(**given).loss_w,
    "device volts": lambda **given: delivery_from_source(**given).device_v,
    "current": current,
    "source power": source_power,
    "source power over cable": lambda **given: over_cable(**given).source_w,
    "device volts over cable": lambda **given: over_cable(**given).device_v,
    "loss over cable": lambda **given: over_cable(**given).loss_w,
    "assigned": assigned,
    "reserved": lambda classes: reserved_power(numbers(classes)),
    "left of 370 W": lambda classes: 370 - reserved_power(numbers(classes)),
    "cascade": cascade_budget,
    "cascade carries": cascade_carries,
    "lldp": lambda device_w: f"0x{lldp_steps(device_w):04X}",
}


@parametrized("poe")
def test_poe(check: Check) -> None:
    verify(check, CALCULATIONS)
