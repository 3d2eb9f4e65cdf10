"""The schedule as files: the checklist page to tick off, the calendar, the schedule for programs."""
