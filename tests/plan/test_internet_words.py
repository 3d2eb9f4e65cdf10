"""What a plan says of the provider's line, and what it must not hold."""

import pytest

from firstfix.plan.model import InternetSpec, Written
from plan.reading import plan, read

FAULTS = (
    ("internet: {addresses: dhcp}\n", "1:11: 'internet' needs 'through'"),
    (
        "internet: {through: a, addresses: static}\n",
        "1:35: 'addresses' is one of 'dhcp', 'fixed', 'pppoe', not 'static'",
    ),
    ("internet: {through: a, addresses: fixed}\n", "1:11: 'internet' needs 'address'"),
    (
        "internet: {through: a, address: 192.0.2.10/30}\n",
        "1:24: 'address' goes with 'addresses: fixed', not with dhcp",
    ),
    (
        "internet: {through: a, addresses: fixed, address: 192.0.2.10}\n",
        "1:51: 'address' is an address with its prefix, such as 192.0.2.10/30, not '192.0.2.10'",
    ),
    (
        "internet: {through: a, router: me}\n",
        "1:32: 'router' is the address of the provider's router, such as 192.0.2.9, not 'me'",
    ),
    (
        "internet: {through: a, password: b}\n",
        "1:34: a plan holds no access data: it is shown to others; key them in at the router",
    ),
)


@pytest.mark.parametrize(("text", "said"), FAULTS, ids=[text.strip()[:40] for text, _ in FAULTS])
def test_fault_is_named_at_its_place(text: str, said: str) -> None:
    assert read(text)[1] == [said]


def test_a_line() -> None:
    text = "internet: {through: box, addresses: fixed, address: 2001:db8::2/64, router: '2001:DB8::1', translates: false}\n"
    given = plan(text).internet
    assert given is not None
    written = Written(None, given.written.node)
    assert given == InternetSpec("box", "fixed", "2001:db8::2/64", "2001:db8::1", False, written)
