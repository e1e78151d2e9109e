"""The answers of players to a try-out sheet: the file they are typed into, and what follows from them.

The file is TOML. It says what each number of its sheet stands for, so that it is read by itself. From the answers
of one player follows a profile of that player; from those of several, limits with counts.
"""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

from gesturesmith import instruments
from gesturesmith.exercises.tryout import Question, limit_of
from gesturesmith.instruments.base import Instrument
from gesturesmith.instruments.profile.file import MARK as PROFILE
from gesturesmith.instruments.profile.file import ProfileError, located, parse, read_bytes
from gesturesmith.instruments.profile.read import load
from gesturesmith.model.gesture import LEVELS
from gesturesmith.values import frozen

MARK = "try_out_answers"
FINE, CARE, NO = "fine", "care", "no"
_WORDS = (NO, CARE, FINE)  # by how well it goes
_MOST_TRIALS = 200
_KEYS = (MARK, "instrument", "player", "date", "answers", "trials")


@frozen(kw_only=True)
class Tried:
    """One answered trial."""

    number: int
    limit: str
    value: Any
    answer: str


@frozen(kw_only=True)
class Answers:
    """What one player answered; `tried` in the order of the sheet.

    based_on   the name of the instrument or, for a profile, its path from the file of answers
    """

    file: str
    instrument: Instrument
    based_on: str
    player: str
    date: str
    tried: tuple[Tried, ...]

    def of(self, limit: str) -> tuple[Tried, ...]:
        """The answers about one limit, the easiest trial first."""
        return tuple(t for t in self.tried if t.limit == limit)


def form(instrument: str, asked: Sequence[tuple[str, Question]]) -> str:
    """The file to type answers into; `instrument` is its name or the path of its profile, and each question has its
    title.
    """
    lines = [
        "# Answers to a try-out sheet. Type fine, care or no between the quotes after each number;",
        "# what was not tried stays empty.",
        "",
        f"{MARK} = 1",
        f"instrument = {_text(instrument)}",
        'player = ""',
        'date = ""  # such as 2025-03-14',
        "",
        "[answers]",
    ]
    number, trials = 0, []
    for title, question in asked:
        lines.append(f"# {title}")
        for trial in question.trials:
            number += 1
            lines.append(f'{number} = ""  # {_said(trial.value, question.unit)}')
            trials.append(f"{number} = [{_text(question.limit)}, {_value(trial.value)}]")
    return "\n".join([*lines, "", "# What the numbers stand for; leave this as it is.", "[trials]", *trials, ""])


def read(path: Path) -> tuple[Answers | None, tuple[ProfileError, ...]]:
    """The answers of a file, or None with every mistake in it."""
    data = read_bytes(path)
    if isinstance(data, ProfileError):
        return None, (data,)
    parsed = parse(data, MARK, "answers to a try-out sheet begin")
    if isinstance(parsed, ProfileError):
        return None, (parsed,)
    reader = _AnswerFile(*parsed)
    found = reader.answers(path)
    return (None if reader.errors else found), tuple(sorted(reader.errors, key=lambda e: (e.line, e.key)))


class _AnswerFile:
    """Reads the values of a file and collects its mistakes."""

    def __init__(self, values: dict[str, Any], lines: dict[tuple[str, ...], int]) -> None:
        self.values, self.lines = values, lines
        self.errors: list[ProfileError] = []

    def error(self, key: tuple[str, ...], problem: str, allowed: str = "") -> None:
        line = self.lines.get(key) or self.lines.get(key[:1], 0)
        self.errors.append(ProfileError(line, ".".join(key), problem, allowed))

    def text(self, key: str) -> str:
        value = self.values.get(key, "")
        if isinstance(value, datetime.date):
            return value.isoformat()
        if not isinstance(value, str) or len(value) > 100 or not all(c.isprintable() for c in value):
            self.error((key,), "not a printable text", "a text in quotes, up to 100 characters")
            return ""
        return value.strip()

    def answers(self, path: Path) -> Answers | None:
        for key in self.values:
            if key not in _KEYS:
                self.error((key,), "unknown key", ", ".join(_KEYS))
        if self.values[MARK] != 1:
            self.error((MARK,), "this version is not known", "1")
        player, date, name = self.text("player"), self.text("date"), self.text("instrument")
        if not player:
            self.error(("player",), "who answered is missing", "a name in quotes")
        if date and not _is_date(date):
            self.error(("date",), "not a date", "year, month and day, such as 2025-03-14")
        instrument = self._instrument(path, name)
        if instrument is None:
            return None
        trials = self._trials(instrument)
        tried = self._tried(trials)
        found = Answers(file=str(path), instrument=instrument, based_on=name, player=player, date=date, tried=tried)
        for limit in dict.fromkeys(t.limit for t in tried):
            self._agree(found.of(limit))
        if not tried and not self.errors:
            self.error(("answers",), "nothing is answered", ", ".join((FINE, CARE, NO)))
        return found

    def _instrument(self, path: Path, name: str) -> Instrument | None:
        """The instrument of the sheet, by its name or from the profile at its path; None after an error."""
        if name in instruments.names():
            return instruments.get(name)
        if not name.endswith(".toml"):
            self.error(("instrument",), "unknown instrument", "the name that the sheet was made for")
            return None
        found, errors = load(located(path.parent, name))
        for error in errors:
            self.error(("instrument",), error.message)
        return found

    def _table(self, key: str) -> Mapping[str, Any]:
        table = self.values.get(key, {})
        if not isinstance(table, dict) or len(table) > _MOST_TRIALS:
            self.error((key,), "not a table of numbers", f"[{key}] with at most {_MOST_TRIALS} lines")
            return {}
        return table

    def _trials(self, instrument: Instrument) -> dict[str, tuple[str, Any]]:
        """What each number stands for."""
        found = {}
        for number, trial in self._table("trials").items():
            right = isinstance(trial, list) and len(trial) == 2 and isinstance(trial[0], str)
            limit = limit_of(instrument, trial[0]) if right else None
            counted = number.isdecimal() and len(number) <= len(str(_MOST_TRIALS))
            if not counted or limit is None or not _same_sort(trial[1], limit.narrow.value):
                self.error(("trials", number), "not a trial of this instrument", "leave this table as it was made")
            else:
                found[number] = (trial[0], trial[1])
        return found

    def _tried(self, trials: Mapping[str, tuple[str, Any]]) -> tuple[Tried, ...]:
        found = []
        for number, answer in self._table("answers").items():
            if number not in trials:
                self.error(("answers", number), "the sheet has no such number", _range(trials))
            elif not isinstance(answer, str) or answer.strip().lower() not in ("", *_WORDS):
                self.error(("answers", number), "not an answer", f"{FINE}, {CARE} or {NO} in quotes, or nothing")
            elif answer.strip():
                limit, value = trials[number]
                found.append(Tried(number=int(number), limit=limit, value=value, answer=answer.strip().lower()))
        return tuple(sorted(found, key=lambda t: t.number))

    def _agree(self, tried: Sequence[Tried]) -> None:
        """What is harder cannot go better."""
        for easier, harder in pairwise(tried):
            if _WORDS.index(harder.answer) > _WORDS.index(easier.answer):
                self.error(
                    ("answers", str(harder.number)),
                    f"{harder.number} is {harder.answer}, but {easier.number}, which is easier, is {easier.answer}",
                    "answers that do not get better from easy to hard",
                )


@frozen(kw_only=True)
class Result:
    """What follows from answers.

    limits   by name: the narrow value, the wide one or None, and the source
    notes    what could not be said, as sentences for people
    """

    limits: Mapping[str, tuple[Any, Any, str]]
    notes: tuple[str, ...]


def of_player(answers: Answers) -> Result:
    """The limits of one player: with care beyond the hardest trial that was fine; not as written beyond the hardest
    that went at all, if a harder one failed.
    """
    limits, notes = {}, []
    source = f"tried out on {answers.date}" if answers.date else "tried out"
    for limit in dict.fromkeys(t.limit for t in answers.tried):
        tried = answers.of(limit)
        fine = [t.value for t in tried if t.answer == FINE]
        if not fine:
            notes.append(f"{limit}: nothing that was tried was fine, so its place is not known")
            continue
        limits[limit] = (fine[-1], _ends(tried), source)
    return Result(limits=limits, notes=tuple(notes))


def _ends(tried: Sequence[Tried]) -> Any:
    """The hardest that went at all, if a harder one failed, and it is a number."""
    went = [t.value for t in tried if t.answer != NO]
    return went[-1] if len(went) < len(tried) and not isinstance(went[-1], str) else None


def pooled(all_answers: Sequence[Answers]) -> Result:
    """Limits from several players, with counts: with care beyond the hardest trial that was fine for more than half
    of those who tried; not as written beyond the hardest that went at all for any of them, if a harder one failed.
    """
    limits, notes = {}, []
    for limit in dict.fromkeys(t.limit for answers in all_answers for t in answers.tried):
        asked = [tried for answers in all_answers if (tried := answers.of(limit))]
        order = _order(t for tried in asked for t in tried)
        best = [max((order.index(t.value) for t in tried if t.answer == FINE), default=-1) for tried in asked]
        place = max((n for n in range(len(order)) if sum(b >= n for b in best) * 2 > len(asked)), default=-1)
        if place < 0:
            notes.append(f"{limit}: nothing that was tried was fine for more than half of {_players(len(asked))}")
            continue
        source = f"{_players(len(asked))} tried: {_counted(asked, order, place)}"
        went = [order.index(t.value) for tried in asked for t in tried if t.answer != NO]
        failed = any(t.answer == NO and order.index(t.value) > max(went) for tried in asked for t in tried)
        hardest = order[max(went)]
        limits[limit] = (order[place], hardest if failed and not isinstance(hardest, str) else None, source)
    return Result(limits=limits, notes=tuple(notes))


def _order(tried: Iterable[Tried]) -> list[Any]:
    """The values tried, from easy to hard, as the numbers of the sheet have them."""
    first: dict[Any, int] = {}
    for t in tried:
        first.setdefault(t.value, t.number)
    return sorted(first, key=lambda value: first[value])


def _counted(asked: Sequence[Sequence[Tried]], order: Sequence[Any], place: int) -> str:
    """How a value went, for how many. Who did not try it counts if something harder was fine or something easier
    failed.
    """
    counts: Counter[str] = Counter()
    for tried in asked:
        by_place = {order.index(t.value): t.answer for t in tried}
        harder_fine = any(answer == FINE for at, answer in by_place.items() if at > place)
        easier_failed = any(answer == NO for at, answer in by_place.items() if at < place)
        counts[by_place.get(place) or (FINE if harder_fine else NO if easier_failed else "")] += 1
    words = {FINE: "fine for", CARE: "with care for", NO: "not for"}
    return ", ".join(f"{words[answer]} {counts[answer]}" for answer in (FINE, CARE, NO) if counts[answer])


def _players(count: int) -> str:
    return f"{count} player{'' if count == 1 else 's'}"


def disagreements(all_answers: Sequence[Answers]) -> tuple[str, ...]:
    """Why these files cannot be pooled, as sentences: another instrument, the same player twice."""
    found = []
    first = all_answers[0]
    seen: dict[str, str] = {}
    for answers in all_answers:
        if answers.instrument != first.instrument:
            found.append(
                f"{answers.file} is about the {answers.instrument.name}, {first.file} about the "
                f"{first.instrument.name}"
            )
        before = seen.setdefault(answers.player.casefold(), answers.file)
        if before != answers.file:
            found.append(
                f"{before} and {answers.file} are both by {answers.player}; give two players different names"
            )
    return tuple(found)


def profile(instrument: Instrument, result: Result, player: str = "", *, based_on: str = "") -> str:
    """A profile with the limits: of a player, or, with "", of an instrument.

    based_on   the path of the instrument's profile, for one that is not shipped
    """
    lines = [
        f"{PROFILE} = 1",
        *([f"player = {_text(player)}"] if player else []),
        f"based_on = {_text(based_on or instrument.key)}",
    ]
    if not player:
        lines.append(f"name = {_text(f'{instrument.name}, as players tried it')}")
    lines += ["", "[limits]"]
    kind = "player" if player else "practice"
    for name, (narrow, wide, source) in sorted(result.limits.items()):
        parts = [f"narrow = {_value(narrow)}", f'kind = "{kind}"', f"source = {_text(source)}"]
        if wide is not None:
            parts += [f"wide = {_value(wide)}", f'wide_kind = "{kind}"', f"wide_source = {_text(source)}"]
        lines.append(f"{_text(name) if '.' in name else name} = {{ {', '.join(parts)} }}")
    return "\n".join([*lines, ""])


def _same_sort(value: Any, like: Any) -> bool:
    if isinstance(like, str):
        return value in LEVELS
    numbers = all(isinstance(v, int | float) and not isinstance(v, bool) for v in (value, like))
    return numbers and like / 20 <= value <= like * 20


def _range(trials: Mapping[str, Any]) -> str:
    numbers = sorted(map(int, trials))
    return f"{numbers[0]} to {numbers[-1]}" if numbers else "no numbers: the table [trials] is missing"


def _is_date(text: str) -> bool:
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _said(value: Any, unit: str) -> str:
    return f"{value} {unit}".strip()


def _text(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _value(value: Any) -> str:
    return _text(value) if isinstance(value, str) else str(value)
