"""Networks of jobs: published ones, and those that hypothesis draws."""

from hypothesis import strategies as st

from firstfix.schedule.jobs import Job


def network(*jobs: tuple[str, int, str]) -> tuple[Job, ...]:
    """Each with its length and, apart by blanks, what it waits for."""
    return tuple(Job(name, minutes, tuple(before.split())) for name, minutes, before in jobs)


# House-building example of an operations-research textbook, in weeks (data from memory).
HOUSE = network(
    ("A", 2, ""), ("B", 4, "A"), ("C", 10, "B"), ("D", 6, "C"), ("E", 4, "C"), ("F", 5, "E"), ("G", 7, "D"),
    ("H", 9, "E G"), ("I", 7, "C"), ("J", 8, "F I"), ("K", 4, "J"), ("L", 5, "J"), ("M", 2, "H"), ("N", 6, "K L"),
)  # fmt: skip
# A small installation, in days.
INSTALL = network(
    ("survey", 1, ""), ("order", 5, "survey"), ("mount", 1, "order"), ("copper", 3, "order"), ("fibre", 2, "order"),
    ("terminate", 2, "mount copper"), ("splice", 1, "mount fibre"), ("certify", 1, "terminate splice"),
    ("config", 2, "survey"), ("commission", 1, "certify config"),
)  # fmt: skip


@st.composite
def jobs(draw: st.DrawFn, most: int = 12, longest: int = 30, places: int = 3) -> tuple[Job, ...]:
    """Up to `most`; each may wait for any that were drawn before it, for two people or for others, and for a moment."""
    made: list[Job] = []
    for number in range(draw(st.integers(1, most))):
        before = draw(st.sets(st.sampled_from(range(number)), max_size=3)) if number else set()
        people = draw(st.sampled_from((1, 1, 1, 2, 0)))
        place = draw(st.sampled_from(("", *(f"room {each}" for each in range(places)))))
        made.append(
            Job(
                f"j{number}",
                draw(st.integers(0, longest)),
                tuple(f"j{each}" for each in sorted(before)),
                people,
                place if people else "",
                draw(st.sampled_from((0, 0, 0, 40))),
            )
        )
    return tuple(made)
