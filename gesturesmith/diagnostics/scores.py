"""The reports on scores that were made elsewhere, for people and as values for JSON."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gesturesmith.diagnostics.lines import visible
from gesturesmith.diagnostics.types import FoundPlace, ScorePartReport, ScoreReport, Severity

_PLACES_SHOWN = 12  # bars of one finding; more are only counted
_ERRORS_SHOWN = 20
_COLOURS = {"not as written": "1;31", "cannot be read": "1;31", "with care": "1;33"}
_WIDTH = 106


def render_scores(reports: Sequence[ScoreReport], *, colour: bool) -> str:
    """Every finding on each score, the worst first, followed by what each part was taken for."""
    return "\n".join("\n".join(_score(report, colour=colour)) + "\n" for report in reports)


def _score(report: ScoreReport, *, colour: bool) -> Iterator[str]:
    name = visible(report.file)
    for error in report.errors[:_ERRORS_SHOWN]:
        yield _heading("cannot be read", f"line {error.span.line}: {error.rule}", colour)
        yield from _wrapped(error.message)
        yield ""
    if len(report.errors) > _ERRORS_SHOWN:
        yield f"and {len(report.errors) - _ERRORS_SHOWN} more places that could not be read"
        yield ""
    every = [(part, found) for part in report.parts for found in part.findings]
    every.sort(key=lambda one: -one[1].severity.rank)
    for part, found in every:
        if found.severity is Severity.ADVICE:
            continue
        yield _heading(found.severity.heading, f"{_called(part)}, {_where(found.places[0])}: {found.rule}", colour)
        yield from _wrapped(found.text)
        if len(found.places) > 1:
            yield from _wrapped(f"also {_others(found.places[1:])}")
        yield f"  why: gesturesmith explain {found.rule}"
        yield ""
    title = f": “{visible(report.title)}”" if report.title else ""
    yield f"{name}{title}, {_counted(report.bars, 'bar')}"
    if report.tempo is not None:
        yield f"  no tempo at its beginning: {float(report.tempo):g} quarters a minute assumed (--tempo sets it)"
    for part in report.parts:
        yield from _part(part)
    if not report.parts:
        yield '  no brass part in it; --part "NAME=horn" says what a part is for'
    if report.others:
        yield f"  not judged, other instruments: {', '.join(map(visible, report.others))}"
    if report.left_out:
        yield f"  signs left out: {', '.join(f'{visible(sign)} ({count})' for sign, count in report.left_out)}"


def _part(part: ScorePartReport) -> Iterator[str]:
    written = f", written {part.written}" if part.written else ""
    yield f"  {_called(part)}: {_counted(part.notes, 'note')}, {part.verdict.words}"
    yield f"    {part.instrument_name} ({part.instrument}), {visible(part.why)}{written}"
    advice = [found for found in part.findings if found.severity is Severity.ADVICE]
    if advice:
        count = sum(len(found.places) for found in advice)
        yield f"    {_counted(count, 'piece')} of advice (--json lists them)"


def _called(part: ScorePartReport) -> str:
    return visible(part.part) + (f", player {part.player}" if part.player else "")


def _where(place: FoundPlace) -> str:
    """ "bar 12, beat 3 (C5)", "bars 31 to 40"."""
    if place.until_bar:
        return f"from bar {visible(place.bar)} to {visible(place.until_bar)}"
    note = f" ({place.note})" if place.note else ""
    return f"bar {visible(place.bar)}, beat {_beat(place)}{note}"


def _beat(place: FoundPlace) -> str:
    whole, rest = divmod(place.beat, 1)
    return f"{whole}" if not rest else f"{whole} {rest.numerator}/{rest.denominator}"


def _others(places: Sequence[FoundPlace]) -> str:
    """ "in bars 14, 16 to 18": each bar once, the worst first; numbers that follow each other are joined."""
    spans = [p for p in places if p.until_bar]
    if spans:
        shown = [f"{p.bar} to {p.until_bar}" for p in spans[:_PLACES_SHOWN]]
        shown += list(dict.fromkeys(p.bar for p in places if not p.until_bar))
    else:
        shown = _joined(list(dict.fromkeys(p.bar for p in places)))
    more = f" and {len(shown) - _PLACES_SHOWN} more" if len(shown) > _PLACES_SHOWN else ""
    word = "bar" if len(shown) == 1 and " to " not in shown[0] else "bars"
    times = f" ({len(places)} places)" if len(places) > len(shown) and not spans else ""
    return visible(f"in {word} {', '.join(shown[:_PLACES_SHOWN])}{more}{times}")


def _joined(bars: list[str]) -> list[str]:
    """Bars in the order of the score, those that follow each other as a stretch."""
    if not all(bar.isdecimal() for bar in bars):
        return bars
    numbers = sorted(map(int, bars))
    rows: list[list[int]] = []
    for number in numbers:
        if rows and number == rows[-1][1] + 1:
            rows[-1][1] = number
        else:
            rows.append([number, number])
    return [str(a) if a == z else f"{a} to {z}" for a, z in rows]


def _heading(word: str, rest: str, colour: bool) -> str:
    return f"\x1b[{_COLOURS[word]}m{word}:\x1b[0m {rest}" if colour else f"{word}: {rest}"


def _wrapped(text: str) -> Iterator[str]:
    import textwrap

    for line in textwrap.wrap(visible(text), _WIDTH, break_long_words=False, break_on_hyphens=False):
        yield f"  {line}"


def _counted(number: int, thing: str) -> str:
    return f"{number:,} {thing}" if number == 1 else f"{number:,} {thing}s"
