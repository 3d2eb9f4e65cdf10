"""All documents of a large plan take as much longer than those of a smaller one as it is larger, and not much more."""

import time

import pytest

from firstfix.pipeline import results
from plans_of_size.plans import boarding

# Four times the devices, and half as much again: sorting, and what is compared in pairs within a house.
_SMALL, _LARGE, _MOST = 250, 1000, 6.0


@pytest.mark.long
def test_documents_take_as_long_as_the_plan_is_large(request: pytest.FixtureRequest) -> None:
    if "long" not in request.config.getoption("-m"):
        pytest.skip("two minutes; run with `-m long`")
    results(boarding(_SMALL))  # what is imported and read once
    small, large = _seconds(_SMALL), _seconds(_LARGE)
    assert large <= _MOST * small, f"{small:.1f} s and {large:.1f} s"


def _seconds(devices: int) -> float:
    """Processor time, so that other work on the machine does not count."""
    begun = time.process_time()
    assert results(boarding(devices))
    return time.process_time() - begun
