"""A report for people, as text."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from gesturesmith.diagnostics.lines import excerpt, visible, width
from gesturesmith.diagnostics.types import (
    ExerciseReport,
    FileReport,
    Finding,
    GestureReport,
    PartName,
    PassageReport,
    ReadError,
    Report,
    Severity,
    Suggestion,
    Verdict,
)
from gesturesmith.source import Span
from gesturesmith.values import frozen

_COLUMNS = 116  # a message that would be longer goes under its caret
_COLOURS = {"not as written": "1;31", "cannot be read": "1;31", "with care": "1;33", "advice": "1;36"}
_DEMANDS_SHOWN = 3  # reasons for a difficulty, the heaviest first
_UNTRIED_SHOWN = 5
_LEFT_OUT_SHOWN = 3  # variants of an exercise shown with their reason; more are only counted


@frozen
class SourceText:
    """A file's name and its lines, split once."""

    name: str
    lines: tuple[str, ...]


def render_text(report: Report, *, colour: bool) -> str:
    """Every finding and error of each file, in order, followed by the file's summary."""
    return "\n".join(_file(f, colour=colour) for f in report.files)


def _file(report: FileReport, *, colour: bool) -> str:
    text = SourceText(report.source.name, report.source.lines)
    blocks = [*_errors(report, text), *_findings(report, text)]
    blocks.sort(key=lambda block: block[0])
    lines = [line for _, block in blocks for line in (*_coloured(block, colour), "")]
    return "\n".join([*lines, *_summary(report)]) + "\n"


def _coloured(block: list[str], colour: bool) -> list[str]:
    if not colour:
        return block
    heading, colon, rest = block[0].partition(":")
    return [f"\x1b[{_COLOURS[heading]}m{heading}{colon}\x1b[0m{rest}", *block[1:]]


def _errors(report: FileReport, text: SourceText) -> Iterator[tuple[tuple[int, int], list[str]]]:
    for error in report.errors:
        yield (error.span.line, error.span.column), _error(error, text)


def _findings(report: FileReport, text: SourceText) -> Iterator[tuple[tuple[int, int], list[str]]]:
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    for said in everything:
        for finding in said.findings:
            place = (finding.span.line, finding.span.column)
            yield place, _finding(finding, said, text)


def _error(error: ReadError, text: SourceText) -> list[str]:
    """An error as lines: the problem, the line with its caret, what to write instead, the place."""
    owner = f" {visible(error.gesture)}:" if error.gesture else ""
    lines = [f"cannot be read:{owner} {error.rule}"]
    lines += _shown(text, error.span, error.message)
    near = [n for n in error.nearest if n not in error.message]
    if near:
        lines.append(f"  did you mean {' or '.join(visible(n) for n in near)}?")
    lines.append(_place(text, error.span, error.code))
    return lines


def _finding(finding: Finding, said: GestureReport | PassageReport, text: SourceText) -> list[str]:
    """A finding as lines, in fixed order: which, what, the line, a suggestion, why, the place."""
    name = f'"{visible(said.title)}"' if said.title else visible(said.name)
    part = said.part.title if said.part is not None else ""
    where = "".join(f", {visible(place)}" for place in (part, finding.where) if place)
    lines = [f"{(finding.severity or Severity.CAUTION).heading}: {name}{where}: {finding.rule}"]
    lines += _shown(text, finding.span, finding.text)
    if finding.suggestions:
        lines.append(_try(finding.suggestions[0]))
    elif finding.hint:
        lines.append(f"  hint: {visible(finding.hint)}")
    lines.append(f"  why: gesturesmith explain {finding.rule}")
    lines.append(_place(text, finding.span, finding.code))
    return lines


def _shown(text: SourceText, span: Span, message: str) -> list[str]:
    """The user's line, with the message at its caret or, if too long, on separate lines."""
    line = text.lines[span.line - 1] if span.line <= len(text.lines) else ""
    shown, carets = excerpt(line, span)
    message = visible(message)
    head = [f"{span.line:>5} | {shown}".rstrip()]
    if width(carets) + 9 + width(message) <= _COLUMNS:
        return [*head, f"      | {carets} {message}"]
    import textwrap  # rarely needed, and imports above cost every check

    wrapped = textwrap.wrap(message, _COLUMNS - 10, break_long_words=False, break_on_hyphens=False)
    return [*head, f"      | {carets}", *(f"      |   {part}" for part in wrapped)]


def _try(suggestion: Suggestion) -> str:
    changed = ", changes the music" if suggestion.changes_music else ""
    words = visible(suggestion.in_words)
    return f"  try: {words:<30} (checked: {suggestion.verdict.words}{changed})"


def _place(text: SourceText, span: Span, code: str) -> str:
    return f"  {visible(text.name)}:{span.line}:{span.column}  {code}"


def _summary(report: FileReport) -> Iterator[str]:
    name = visible(report.source.name)
    if report.errors:
        yield f"{name}: {_counted(len(report.errors), 'error')}; what could be read was checked"
    if any(g.part is not None for g in report.gestures) or any(p.part is not None for p in report.passages):
        yield from _of_parts(name, report)
        return
    if report.gestures:
        yield f"{name}: {_counted(len(report.gestures), 'gesture')}: {_verdicts(report.gestures)}"
    elif not report.errors:
        yield f"{name}: no gestures"
    yield from _difficulty(report.gestures)
    if report.passages:
        yield f"  {_counted(len(report.passages), 'passage')}: {_verdicts(report.passages)}"
    for exercise in report.exercises:
        yield from _exercise(exercise)
    yield from untried(report)


def _of_parts(name: str, report: FileReport) -> Iterator[str]:
    """The report on each part, in order."""
    everything: tuple[GestureReport | PassageReport | ExerciseReport, ...]
    everything = (*report.passages, *report.gestures, *report.exercises)
    parts: dict[PartName, None] = dict.fromkeys(said.part for said in everything if said.part is not None)
    yield f"{name}: {_counted(len(parts), 'part')}"
    for part in parts:
        gestures = tuple(g for g in report.gestures if g.part == part)
        passages = tuple(p for p in report.passages if p.part == part)
        counts = [f"{_counted(len(gestures), 'gesture')}: {_verdicts(gestures)}"] if gestures else []
        counts += [f"{_counted(len(passages), 'passage')}: {_verdicts(passages)}"] if passages else []
        yield f"  {visible(part.title)}: {'; '.join(counts)}"
        yield from (f"  {line}" for line in _difficulty(gestures))
        for exercise in report.exercises:
            if exercise.part == part:
                yield from (f"  {line}" for line in _exercise(exercise))
    yield from untried(report)


def untried(report: FileReport) -> Iterator[str]:
    """The gestures for which not everything was tried, and how to try it."""
    names = [visible(name) for name in report.untried]
    if not names:
        return
    more = f" and {len(names) - _UNTRIED_SHOWN} more" if len(names) > _UNTRIED_SHOWN else ""
    yield f"  no further suggestions were tried in this file: {', '.join(names[:_UNTRIED_SHOWN])}{more};"
    yield f"  gesturesmith suggest --only {names[0]} tries that one"


def _difficulty(gestures: tuple[GestureReport, ...]) -> Iterator[str]:
    """The range from the easiest to the hardest playable one, and what makes that one hard."""
    playable = [
        (g.difficulty, g) for g in gestures if g.difficulty is not None and g.verdict is not Verdict.NOT_AS_WRITTEN
    ]
    if not playable:
        return
    lowest = min(number for number, _ in playable)
    most, hardest = max(playable, key=lambda pair: pair[0])  # of equals the first
    why = ", ".join(d.name for d in hardest.demands[:_DEMANDS_SHOWN])
    which = "" if len(playable) == 1 else f"; hardest: {visible(hardest.name)}"
    yield f"  difficulty {_span(lowest, most)} of 100{which}{f' ({why})' if why else ''}"


def _verdicts(said: tuple[GestureReport, ...] | tuple[PassageReport, ...]) -> str:
    count = Counter(s.verdict for s in said)
    return ", ".join(f"{count[v]} {v.words}" for v in Verdict if count[v])


def _exercise(report: ExerciseReport) -> Iterator[str]:
    left = f", {len(report.left_out)} left out" if report.left_out else ""
    numbers = [difficulty for _, difficulty in report.kept]
    hard = f", difficulty {_span(min(numbers), max(numbers))}" if numbers else ""
    yield f"  exercises {visible(report.name)}: {_counted(report.made, 'variant')}{left}{hard}"
    for label, reason in report.left_out[:_LEFT_OUT_SHOWN]:
        yield f"    {visible(label)}: {visible(reason)}"
    if len(report.left_out) > _LEFT_OUT_SHOWN:
        yield f"    and {len(report.left_out) - _LEFT_OUT_SHOWN} more"


def _span(lowest: int, most: int) -> str:
    return f"{lowest} to {most}" if lowest != most else str(most)


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
