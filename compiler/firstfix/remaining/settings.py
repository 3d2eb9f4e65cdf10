"""What a device is set to, as a few digits that are kept with the step that sets it, and differ once the plan sets it otherwise.

In them are the VLANs, by number, of the jacks that the step sets: what a jack that is plugged in a later phase is set to is the later
step's. Addresses are not, for they may be chosen, and choices move with names.
"""

import hashlib
import re
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.work.later_settings import phase_set_in
from firstfix.work.survey import survey

_SHOWN = 8
_MARK = re.compile(r", settings [0-9a-f]{8}$")
_survey = once_per_build(survey)


def settings_words(build: Build, subject: str) -> str:
    """`subject`: the device, with @ and a phase where its later jacks are meant. ", settings 3f0a51c2"; "" where nothing is set."""
    device, _, phase = subject.partition("@")
    lines = sorted(_jacks(build, device, phase))
    digits = hashlib.sha256("\n".join(lines).encode(errors="surrogatepass")).hexdigest()[:_SHOWN]
    return f", settings {digits}" if lines else ""


def split(words: str) -> tuple[str, str]:
    """What is said of a step beside the settings, and these, "" where the record is from before they were kept."""
    found = _MARK.search(words)
    return (words[: found.start()], found.group()) if found else (words, "")


def _jacks(build: Build, device: str, phase: str) -> Iterator[str]:
    later = _later(build)
    for jack in build.jacks_of.get(device, ()):
        setup = build.port_setups.get(jack)
        if setup is not None and (setup.untagged or setup.tagged) and later.get(jack, "") == phase:
            numbers = [build.vlans[each].vid if each else 0 for each in (setup.untagged, *setup.tagged)]
            yield f"{ids.path(jack).rpartition('/')[2]} {numbers}"


@once_per_build
def _later(build: Build) -> dict[str, str]:
    """The phase in which a jack is set, of those that are not set with their device."""
    if not build.phases:
        return {}
    site = _survey(build)
    found = (
        (end, phase_set_in(site, end, piece.id)) for piece in build.pieces.values() for end in piece.ends
    )
    return {end: phase for end, phase in found if phase}
