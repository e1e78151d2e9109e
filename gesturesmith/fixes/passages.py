"""Suggestions for a passage that transposes a gesture, or has a plain pitch, to where it cannot be played."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from gesturesmith.diagnostics import Finding, PassageReport, Severity, Suggestion, Verdict
from gesturesmith.fixes.tester import EditTester
from gesturesmith.lang.nodes import Note, Play, PlayItem
from gesturesmith.model.piece import Settings
from gesturesmith.units import Interval, Spelling, interval

_MAX_SUGGESTIONS = 3
_OCTAVES = (0, -1, 1, -2, 2)


def with_suggestions(tester: EditTester, settings: Settings, said: PassageReport) -> PassageReport:
    """The passage, its refusals with up to three edits each that leave nothing in it refused.

    Every transposed item that is refused is moved by the same number of octaves, or left untransposed; plain
    pitches go into the usual range.
    """
    block = tester.passage(said.name)
    refused = {f.span for f in said.findings if f.severity is Severity.REFUSED}
    entry = block.get("play") if block is not None else None
    if block is None or entry is None or not isinstance(entry.value, Play) or not refused:
        return said
    items = [i for i in entry.value.items if i.span in refused and (i.move or isinstance(i.note, Note))]
    found: list[Suggestion] = []
    for texts in dict.fromkeys(_proposals(items, settings)):
        by_line: dict[int, list[tuple[int, int, str]]] = {}
        for item, text in zip(items, texts, strict=True):
            place = item.span.column - 1, item.span.end_column - 1, text
            by_line.setdefault(item.span.line, []).append(place)
        edits = tester.writer.replaced(entry, by_line)
        verdict = tester.passage_again(block, edits) if edits else None
        if verdict is not None and verdict is not Verdict.NOT_AS_WRITTEN:
            found.append(Suggestion(edits=edits, verdict=verdict, changes_music=True))
        if len(found) == _MAX_SUGGESTIONS:
            break
    return replace(said, findings=tuple(_with(f, tuple(found)) for f in said.findings))


def _with(finding: Finding, found: tuple[Suggestion, ...]) -> Finding:
    return replace(finding, suggestions=found) if finding.severity is Severity.REFUSED else finding


def _proposals(items: list[PlayItem], settings: Settings) -> Iterator[tuple[str, ...]]:
    """New texts of the items: untransposed, or moved by octaves from their transposition."""
    if not items:
        return
    for octaves in (None, *_OCTAVES):
        yield tuple(_text(item, octaves, settings) for item in items)


def _text(item: PlayItem, octaves: int | None, settings: Settings) -> str:
    if isinstance(item.note, Note):
        return " ".join(_pitch(item, item.note, octaves or 0, settings))
    assert item.name is not None
    semitones = _semitones(item) + 12 * octaves if octaves is not None else 0
    way = "up" if semitones > 0 else "down"
    return f"{item.name.text} {way} {abs(semitones)}" if semitones else item.name.text


def _semitones(item: PlayItem) -> int:
    named = interval(item.interval) if item.interval else None
    size = int(named.cents // 100) if named is not None else item.semitones or 0
    return size if item.move == "up" else -size


def _pitch(item: PlayItem, note: Note, octaves: int, settings: Settings) -> Iterator[str]:
    """The item with its pitch moved into the usual range, or by octaves beyond."""
    instrument = settings.instrument
    spelling = Spelling(note.letter, note.alter, note.octave, note.cents)
    heard = instrument.heard(spelling) if settings.pitches == "written" else spelling
    low, high = instrument.usual_range.value
    into = 0
    if heard.pitch_cents < low:
        into = -int((heard.pitch_cents - low) // 1200)
    elif heard.pitch_cents > high:
        into = -int(-((high - heard.pitch_cents) // 1200))
    by = into + octaves
    yield ("x" if note.about else "") + spelling.transposed(Interval(7 * by, Fraction(1200 * by))).name
    if item.for_ is not None:
        yield f"for {item.for_.value}"
    if item.as_:
        yield f"as {' + '.join(word.text for word in item.as_)}"
    yield from (mark.text for mark in item.marks)
    yield from map(str, item.texts)
