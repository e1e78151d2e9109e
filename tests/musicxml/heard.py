"""What music21 reads in a document, compared with what the file asks for: pitch and onset of every note."""

from __future__ import annotations

import re
import warnings
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

import music21
from musicxml.exported import Exported
from reading.says import Asked, Said

_LETTERS = "CDEFGAB"
_MIDDLE_OF_THREE = 32  # G4: the lowest of three lines is E4, as of five
_CLOSE = 1e-6  # beats: music21 counts in floating point where a length is no simple fraction


@dataclass(frozen=True)
class Heard:
    """A note as music21 has it.

    measure, at   beats from the start of its part, to its measure and to itself
    cents         above C-1; None without pitch
    steps         above C0
    above         how many cents higher the upper note of two is
    """

    measure: float
    at: float
    cents: float | None
    steps: int
    above: float | None
    grace: bool
    enclosed: bool  # in parentheses
    on_a_line: bool
    voice: str


def differences(exported: Exported, folder: Path) -> list[str]:
    """Every difference, one line each."""
    path = folder / "read.musicxml"
    path.write_bytes(exported.data)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        score = music21.converter.parse(path, forceSource=True)
    found = []
    parts = list(score.parts)
    width = max(len(system) for system in exported.systems)
    if len(parts) != width:
        return [f"{exported.name}: {len(parts)} parts, {width} are asked for"]
    rows, held = _rows(exported), _held(exported.data)
    for number, part in enumerate(parts):
        heard = list(_notes(number, part, held))
        start = Fraction(0)
        for system, row in zip(exported.systems, rows, strict=True):
            end = start + max(_length(said) for said in system)
            said = row[number]
            if said is not None:
                mine = [note for note in heard if _in(note, start, end)]
                found += [f"{exported.name}, part {number + 1}: {p}" for p in _compared(mine, said, start)]
            start = end
        if abs(float(start) - part.duration.quarterLength) > _CLOSE:
            found.append(f"{exported.name}: lasts {part.duration.quarterLength}, not {start}")
    return found


def _rows(exported: Exported) -> list[list[Said | None]]:
    """The lines of each system by part; a second player has none where the two are not divided. Which part that is,
    the document's own names say."""
    names = re.findall(r"<part-name>(.*?)</part-name>", exported.data.decode())
    seconds = [number for number, name in enumerate(names) if re.search(r" \d\.$", name) and number]
    made = []
    for system in exported.systems:
        lines = list(system)
        row: list[Said | None] = []
        for number in range(len(names)):
            left_out = number in seconds and len(lines) + len(row) < len(names)
            row.append(None if left_out else lines.pop(0))
        made.append(row)
    return made


def _length(said: Said) -> Fraction:
    if said.meter is None or said.repeated > 1:
        return said.length
    start, (count, unit) = [one for one in said.meters if one[0] <= said.length][-1]
    bar, since = Fraction(4 * count, unit), start or said.pickup
    return since + -(-(said.length - since) // bar) * bar


def _in(note: Heard, start: Fraction, end: Fraction) -> bool:
    return float(start) - _CLOSE <= note.measure < float(end) - _CLOSE


def _held(data: bytes) -> dict[tuple[int, int, str], list[bool]]:
    """Whether each note continues a tie, by part, measure and voice: music21 drops the ties of notes without
    pitch."""
    found: dict[tuple[int, int, str], list[bool]] = {}
    for number, part in enumerate(ElementTree.fromstring(data).iter("part")):
        for place, measure in enumerate(part.iter("measure")):
            for note in measure.iter("note"):
                if note.find("rest") is None and note.find("chord") is None:
                    held = any(tie.get("type") == "stop" for tie in note.iter("tie"))
                    found.setdefault((number, place, note.findtext("voice")), []).append(held)
    return found


def _notes(number: int, part: music21.stream.Part, held: dict[tuple[int, int, str], list[bool]]):
    for place, measure in enumerate(part.getElementsByClass(music21.stream.Measure)):
        base = float(measure.getOffsetBySite(part))
        voices = list(measure.voices) or [measure]
        for voice in voices:
            which = str(voice.id) if voice is not measure else "1"
            continued = held.get((number, place, which), [])
            for note, goes_on in zip(voice.notes, continued, strict=True):
                if goes_on:
                    continue
                pitches = sorted(note.pitches, key=lambda p: p.ps) if hasattr(note, "pitches") else []
                display = note.pitches[0] if pitches else note
                letter = display.step if pitches else note.displayStep
                octave = display.octave if pitches else note.displayOctave
                cents = [100 * p.ps for p in pitches]
                lines = note.getSpannerSites(music21.spanner.Glissando)
                yield Heard(
                    measure=base,
                    at=base + float(note.offset),
                    cents=cents[0] if cents else None,
                    steps=7 * octave + _LETTERS.index(letter),
                    above=cents[1] - cents[0] if len(cents) > 1 else None,
                    grace=bool(note.duration.isGrace),
                    enclosed=bool(note.noteheadParenthesis),
                    on_a_line=bool(lines),
                    voice=which,
                )


def _compared(heard: list[Heard], said: Said, start: Fraction) -> list[str]:
    found = []
    # The second note of a trill is in parentheses, but no line leads to it.
    played = [n for n in heard if not (n.grace and n.enclosed and not n.on_a_line)]
    for sung in (False, True):
        asked = [a for a in said.notes if a.sung is sung]
        mine = [n for n in played if (n.voice == "2") is sung]
        if len(mine) != len(asked):
            found.append(f"{len(mine)} notes, {len(asked)} in the file ({'sung' if sung else 'played'})")
            continue
        for number, (note, want) in enumerate(zip(mine, asked, strict=True), start=1):
            found += [f"note {number}: {problem}" for problem in _note(note, want, start)]
    return found


def _note(note: Heard, want: Asked, start: Fraction) -> list[str]:
    found = []
    if want.at is not None and abs(note.at - float(start + want.at)) > _CLOSE:
        found.append(f"comes at {note.at - float(start):g}, {float(want.at):g} in the file")
    if note.grace is not bool(want.grace or want.stops):
        found.append("is a grace note in one of the two")
    if want.spelling is None:
        if note.cents is not None:
            found.append("has a pitch, where a height is asked for")
        if want.steps is not None:
            where = _MIDDLE_OF_THREE + want.steps / 2 if want.three_lines else want.steps
            if abs(note.steps - where) > (1 if want.vague else Fraction(1, 2)):
                found.append(f"stands at {note.steps}, {float(where):g} in the file")
        return found
    if note.cents is None:
        if not want.stroke:
            found.append(f"has no pitch, {want.spelling.name} in the file")
        if abs(note.steps - want.spelling.steps) > 1:
            found.append(f"stands at {note.steps}, {want.spelling.name} in the file")
    elif abs(note.cents - float(want.spelling.pitch_cents)) > 0.01:
        found.append(f"sounds at {note.cents / 100:g}, {want.spelling.name} in the file")
    elif abs(note.steps - want.spelling.steps) > (1 if want.spelling.cents else 0):
        found.append(f"is spelled from {_LETTERS[note.steps % 7]}, {want.spelling.name} in the file")
    if (note.above is None) is not (want.above is None) or (
        want.above is not None and round(note.above or 0) not in want.above
    ):
        found.append(f"the upper note is {note.above} cents higher")
    return found
