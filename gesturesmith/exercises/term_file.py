"""The two files of a term, in TOML: the teacher's plan, and the small one in which each lesson is marked."""

from __future__ import annotations

import datetime
import difflib
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from gesturesmith import instruments, techniques
from gesturesmith.exercises.probes import lacking
from gesturesmith.exercises.term import TermPlan, Week
from gesturesmith.instruments import profile
from gesturesmith.instruments.base import Instrument
from gesturesmith.instruments.profile.file import ProfileError, parse, read_bytes
from gesturesmith.instruments.profile.values import Table

PLAN, MARKS = "lesson_plan", "lesson_marks"
_KEYS = (PLAN, "title", "student", "begins", "weeks", "pauses", "level", "techniques", "seed")
_MOST_WEEKS = 40
_WEEK = re.compile(r"week-([1-9][0-9]?)\Z")


def read_plan(path: Path) -> tuple[TermPlan | None, tuple[ProfileError, ...]]:
    """The plan of a file, or None with every mistake in it."""
    read = _read(path, PLAN, "not a plan of lessons: one begins")
    if not isinstance(read, Table):
        return None, read
    read.known(_KEYS)
    read.whole(PLAN, None, 1, 1)
    title = read.text("title", "")
    instrument = _instrument(read, path)
    weeks = read.whole("weeks", None, 2, _MOST_WEEKS)
    begins = _date(read, "begins")
    pauses = _pauses(read)
    level = read.whole("level", 1, 1, 5)
    seed = read.whole("seed", 0, 0, 999_999)
    keys = _techniques(read, instrument)
    if read.errors or instrument is None or begins is None:
        return None, _in_order(read)
    days = [begins + datetime.timedelta(weeks=n) for n in range(weeks)]
    free = tuple(day for day in days if any(day <= pause < day + datetime.timedelta(weeks=1) for pause in pauses))
    lessons = tuple(day for day in days if day not in free)
    if len(lessons) < len(keys) + 1:
        read.error("weeks", "too few for so many techniques", "a week for each technique, and one more at the end")
        return None, _in_order(read)
    plan = TermPlan(
        title=title,
        instrument=instrument,
        techniques=keys,
        level=level,
        dates=lessons,
        pauses=free,
        seed=seed,
    )
    return plan, ()


def read_marks(path: Path, weeks: int) -> tuple[Mapping[int, tuple[int, ...]], tuple[ProfileError, ...]]:
    """For each week the lines to come again; nothing from a file that is not there.

    weeks   how many weeks with a lesson there are
    """
    if not path.exists():
        return {}, ()
    read = _read(path, MARKS, "not the marks of lessons: they begin")
    if not isinstance(read, Table):
        return {}, read
    read.whole(MARKS, None, 1, 1)
    found: dict[int, tuple[int, ...]] = {}
    for key in read.values:
        match = _WEEK.match(key)
        if key == MARKS:
            continue
        if match is None or int(match[1]) > weeks:
            read.error(key, "there is no such week", f"week-1 to week-{weeks}")
            continue
        table = read.table(key)
        table.known(("well", "again"))
        well = table.wholes("well", (0, 20), 1, 20)
        again = table.wholes("again", (0, 20), 1, 20)
        if set(well) & set(again):
            table.error("again", "the same line went well", "each number once")
        found[int(match[1])] = again
    return found, _in_order(read)


def unknown_marks(marks: Mapping[int, tuple[int, ...]], weeks: tuple[Week, ...]) -> tuple[str, ...]:
    """What is marked to come again and is not on the page of its week, in words."""
    there = {week.number: len(week.lines) for week in weeks}
    return tuple(
        f"week-{number}: there is no line {line} on its page, which has {there[number]}"
        for number, lines in sorted(marks.items())
        for line in lines
        if line > there[number]
    )


def marks_form(weeks: int) -> str:
    """The file to mark lessons in."""
    rows = [
        "# After each lesson, the numbers of the lines that went well and of those to come again, such as",
        "# well = [1, 2]. What is in neither counts as gone well. Then make the term again: what follows changes.",
        f"{MARKS} = 1",
    ]
    for number in range(1, weeks + 1):
        rows += ["", f"[week-{number}]", "well = []", "again = []"]
    return "\n".join([*rows, ""])


def _read(path: Path, mark: str, begins: str) -> Table | tuple[ProfileError, ...]:
    data = read_bytes(path)
    if isinstance(data, ProfileError):
        return (data,)
    parsed = parse(data, mark, begins)
    if isinstance(parsed, ProfileError):
        return (parsed,)
    values, lines = parsed
    return Table(values, (), lines, [])


def _in_order(table: Table) -> tuple[ProfileError, ...]:
    return tuple(sorted(table.errors, key=lambda e: (e.line, e.key)))


def _instrument(read: Table, path: Path) -> Instrument | None:
    name = read.text("student", None)
    if not name.endswith(".toml"):
        if name in instruments.names():
            return instruments.get(name)
        near = difflib.get_close_matches(name, instruments.names(), 3)
        if name:
            read.error("student", "no such profile", ", ".join(near) or "the path of a profile, or an instrument")
        return None
    found, errors = profile.load(profile.located(path.parent, name))
    for error in errors:
        read.error("student", error.message)
    return found


def _techniques(read: Table, instrument: Instrument | None) -> tuple[str, ...]:
    value = read.values.get("techniques")
    if not isinstance(value, list) or not value:
        read.error("techniques", "this is missing", '["flutter-tongue", "stopped"]: what to learn, in order')
        return ()
    for name in value:
        if name not in techniques.names():
            near = difflib.get_close_matches(str(name), techniques.names(), 3)
            read.error("techniques", "unknown technique", ", ".join(near) or "see gesturesmith list techniques")
        elif instrument is not None and (why := lacking(techniques.get(name), instrument)):
            read.error("techniques", why, "a technique of this instrument")
    return tuple(dict.fromkeys(name for name in value if name in techniques.names()))


def _date(read: Table, key: str) -> datetime.date | None:
    value = read.values.get(key)
    if not _is_day(value):
        read.error(key, "not a date" if value is not None else "this is missing", "a day such as 2026-09-07")
        return None
    return value


def _pauses(read: Table) -> tuple[datetime.date, ...]:
    value = read.values.get("pauses", [])
    if not isinstance(value, list) or not all(map(_is_day, value)):
        read.error("pauses", "this is a list of dates", "[2026-10-19]: a day of each week without a lesson")
        return ()
    return tuple(value)


def _is_day(value: Any) -> bool:
    return isinstance(value, datetime.date) and not isinstance(value, datetime.datetime)
