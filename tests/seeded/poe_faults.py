"""Power that does not arrive: PoE classes, budgets, injectors, protectors, the mains behind them."""

from seeded.kind import fault
from seeded.page import Page


@fault("poe-class", "unpowered")
def device_of_a_higher_class(page: Page) -> None:
    row = page.device(r"part: (access-point|camera)\b.*plugs-into: .*core")
    page.own_part(row, "takes-poe: {class: 6}, draw: 45 W")


@fault("poe-class", level="error|warning")
def device_that_draws_more_than_its_class(page: Page) -> None:
    row = page.device(r"part: (access-point|camera)\b.*plugs-into: ")
    page.own_part(row, "takes-poe: {class: 2}, draw: 9 W")


@fault("poe-budget", level="error|warning", most=4)
def budget_cut(page: Page) -> None:
    row = page.device(r"^  (core|boat-switch): .*poe")
    page.own_part(row, "gives-poe: {budget: 18 W}")
    for other in page.having("devices", r"plugs-into: "):
        other.touch()


@fault("poe-budget", "poe-class", level="error|cannot tell")
def weaker_injector(page: Page) -> None:
    row = page.device(r"part: injector-class-6").set("part", "injector-class-3")
    page.the("devices", "barn-switch").touch()
    assert row.touched


@fault("poe-budget", "poe-class", level="error|warning|cannot tell")
def injector_taken_out(page: Page) -> None:
    page.link(r", injector, core").swap(r", injector", "")
    page.device(r"part: switch-8-poe-fed").touch()


@fault("poe-through")
def protector_for_less_power(page: Page) -> None:
    page.own_part(page.device(r"part: surge-protector\}|part: surge-protector,"), "surge: {poe-class: 3}")


@fault("copper-between-earths")
def protector_taken_out(page: Page) -> None:
    page.link(r"surge-[a-z]+, surge-[a-z]+").swap(r"surge-[a-z]+, (surge-[a-z]+)", r"\1")


@fault("unpowered")
def access_point_at_the_router(page: Page) -> None:
    row = page.device(r"part: (access-point|access-point-small)\b.*plugs-into: \[?[a-z-]*,? ?core")
    router = page.device(r"part: gateway-").key
    row.set("plugs-into", router)


@fault("unpowered", "poe-class")
def passive_port_for_a_camera(page: Page) -> None:
    row = page.device(r"part: (access-point|camera|camera-outdoor)\b.*plugs-into: .*core")
    page.own_part(row, "takes-poe: {class: 8}, draw: 65 W")


@fault("value-kind")
def both_leads_on_one_feed(page: Page) -> None:
    page.device(r"power: \[ups, strip\]").set("power", "[strip, strip]")


@fault("feeds-not-apart", level="warning")
def backup_behind_the_strip_that_it_doubles(page: Page) -> None:
    page.device(r"power: \[ups, strip\]").touch()
    page.the("devices", "ups").set("power", "strip")


@fault("mains-outlets", "name-unknown", "power-ring", "part-kind")
def ups_fed_by_itself(page: Page) -> None:
    page.the("devices", "ups").set("power", "ups")


@fault("strip-load")
def ups_overloaded(page: Page) -> None:
    page.own_part(page.the("devices", "core"), "draw: 2500 W")
    page.the("devices", "ups").touch()
    page.stands("core")


@fault("circuit-load")
def circuit_overloaded(page: Page) -> None:
    page.pick("circuits", "office-ring").touch()
    page.own_part(page.device(r"part: (end-device|set), room: (bar|gym)"), "draw: 4000 W")
