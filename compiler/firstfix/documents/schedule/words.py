"""Days, minutes and lists of steps as people write them. A plan without a `start` has numbered days."""

from collections.abc import Iterable, Sequence

from firstfix.schedule.days import Day
from firstfix.schedule.model import Schedule

# Not those of the machine's own language.
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day_words(day: Day) -> str:
    """
    >>> day_words(Day(3, 2, "2027-03-03", 2)), day_words(Day(3, 2, "", 2))
    ('Wed 2027-03-03', 'day 3')
    """
    return f"{WEEKDAYS[day.weekday]} {day.date}" if day.date else f"day {day.number}"


def begins(schedule: Schedule, start: int) -> str:
    """The day in which what starts at this minute begins."""
    return day_words(schedule.days[schedule.first_day(start)])


def ends(schedule: Schedule, finish: int) -> str:
    return day_words(schedule.days[schedule.last_day(finish)])


def after_start(schedule: Schedule, offset: int) -> str:
    """A day that need not be one of work: a date, or how long after the start."""
    date = schedule.days.date_at(offset)
    if date:
        return date
    side = "before" if offset < 0 else "after"
    return "at the start" if not offset else f"{counted(abs(offset), 'day')} {side} the start"


def time_words(minutes: int) -> str:
    """
    >>> time_words(5), time_words(60), time_words(135)
    ('5 min', '1 h', '2 h 15 min')
    """
    hours, left = divmod(minutes, 60)
    return " ".join(([f"{hours:,} h"] if hours else []) + ([f"{left} min"] if left or not hours else []))


def counted(count: int, what: str) -> str:
    """
    >>> counted(1, "day"), counted(1200, "walk")
    ('1 day', '1,200 walks')
    """
    return f"{count:,} {what}{'' if count == 1 else 's'}"


def listed(numbers: Iterable[int]) -> str:
    """
    >>> listed([3, 1, 2, 7])
    '1 to 3, 7'
    """
    texts: list[str] = []
    run: list[int] = []
    for number in [*sorted(set(numbers)), 0]:
        if run and number != run[-1] + 1:
            texts.append(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)))
            run = []
        run.append(number)
    return ", ".join(texts)


def hands(schedule: Schedule) -> str:
    """On which days, for how long and by how many."""
    worked = weekday_words(schedule.weekdays)
    people = "one person" if schedule.crew == 1 else f"{schedule.crew} people"
    return f"{people}, {time_words(schedule.day)} a day, {worked}"


def weekday_words(weekdays: Sequence[int]) -> str:
    """
    >>> weekday_words((0, 1, 2, 3, 4)), weekday_words((2, 5)), weekday_words(range(7))
    ('Mon to Fri', 'Wed, Sat', 'every day')
    """
    if len(weekdays) == len(WEEKDAYS):
        return "every day"
    names = [WEEKDAYS[each] for each in weekdays]
    in_a_row = len(names) > 2 and weekdays[-1] - weekdays[0] == len(names) - 1
    return f"{names[0]} to {names[-1]}" if in_a_row else ", ".join(names)
