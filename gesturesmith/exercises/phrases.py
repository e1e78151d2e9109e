"""Practice lines: a shape in a key, on a student's notes, with a technique on some of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Literal, NamedTuple

from gesturesmith.exercises.levels.base import Share
from gesturesmith.exercises.probes import join_of
from gesturesmith.exercises.shapes.base import PhraseShape
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import LineKind
from gesturesmith.model.builder import NewGesture, NewLevel, NewPoint
from gesturesmith.techniques.base import Technique
from gesturesmith.units import LETTERS, KeySignature, Spelling, chromatic
from gesturesmith.values import frozen

# How a technique is practised, worked out from what it takes:
#   tongue   notes repeated by the tongue
#   whole    the line throughout: what cannot change from note to note
#   bend     away from a note and back to it
#   slide    from one note to the next
#   quarter  a quarter tone beside its plain neighbour
#   note     note by note
type Way = Literal["tongue", "whole", "bend", "slide", "quarter", "note"]

_DIVIDED = 4  # beats
_SUNG = 7  # semitones above the note played: a fifth


@frozen(kw_only=True)
class PhraseAsked:
    """A line to be made: its shape, and everything chosen for it.

    key      the written key
    degree   the diatonic step of the shape's degree 0, counted from C0
    pace     the multiple of the shape's note values
    tempo    quarters a minute
    share    which notes use the technique
    dynamics one level, or two with a hairpin
    strokes  repeats in a beat, for what is tongued
    wider    diatonic steps by which its slides are wider than the shape's
    joined   a second technique beside the first, "" for none
    """

    shape: PhraseShape
    key: KeySignature
    degree: int
    pace: Fraction
    tempo: int
    share: Share
    dynamics: tuple[str, ...]
    strokes: int = 0
    wider: int = 0
    joined: str = ""


class _DegreeAt(NamedTuple):
    degree: int
    at: Fraction
    beats: Fraction
    used: bool  # whether it uses the technique


def way_of(technique: Technique) -> Way:
    """How a technique is practised."""
    if technique.rate:
        return "tongue"
    if (
        technique.pitched == "none"
        or technique.look.announce
        or technique.of_mute
        or "mouthpiece" in technique.takes
    ):
        return "whole"
    if technique.one_partial:
        return "bend"
    if technique.grid < 100:
        return "quarter"
    if technique.needs_line:
        return "slide"
    return "note"


def note_in(key: KeySignature, step: int) -> Spelling:
    """The note of a key on a diatonic step, counted from C0."""
    octave, index = divmod(step, 7)
    letter = LETTERS[index]
    return Spelling(letter, Fraction(key.alter(letter)), octave)


def starts(
    shape: PhraseShape, key: KeySignature, ends: tuple[Fraction, Fraction], *, one_note: bool = False
) -> list[int]:
    """The diatonic steps on which a shape can be built within two written notes: on the first degree of its key or,
    if it does not fit there, on its fifth or third.
    """
    degrees = [0] if one_note else [degree for degree, _ in shape.notes]
    tonic = LETTERS.index(key.tonic[0])
    for degree in (0, 4, 2):
        found = []
        for step in range((tonic + degree) % 7, 70, 7):
            low, high = (note_in(key, step + end(degrees)).pitch_cents for end in (min, max))
            if ends[0] <= low and high <= ends[1]:
                found.append(step)
        if found:
            return found
    return []


def line(technique: Technique, instrument: Instrument, asked: PhraseAsked, name: str) -> NewGesture | None:
    """The gesture of a line; None if the shape has nothing for the technique to do."""
    notes = _notes(technique, asked)
    if not any(note.used for note in notes):
        return None
    way = way_of(technique)
    keys = (technique.key, *((asked.joined,) if asked.joined else ()))
    points: list[NewPoint] = []
    sung: list[NewPoint] = []
    used = False
    for number, note in enumerate(notes):
        here = note_in(asked.key, asked.degree + note.degree)
        made = list(_points(technique, way, asked, note, here))
        if number and notes[number - 1].used and way == "slide":
            made[0] = replace(made[0], line=join_of(technique))
        if note.used and not used and way != "whole":
            # A quarter tone comes after its plain neighbour.
            start = 1 if way == "quarter" and len(made) > 1 else 0
            made[start] = replace(made[start], turns_to="+".join(keys))
        elif used and not note.used:
            made[0] = replace(made[0], ends=keys)
        used = note.used
        if way == "quarter" and len(made) > 1:
            made[-1] = replace(made[-1], ends=keys)
            used = False
        points += made
        if technique.sings:
            sung.append(NewPoint(pitch=here.transposed(chromatic(_SUNG)) if used else None, at=note.at))
    levels = tuple(NewLevel(level=level) for level in asked.dynamics)
    if len(levels) > 1:
        louder = asked.dynamics[0] in ("pp", "p") and asked.dynamics[1] in ("f", "ff")
        levels = (replace(levels[0], join="<" if louder else ">"), *levels[1:])
    return NewGesture(
        instrument=instrument,
        points=tuple(points),
        name=name,
        tempo=Fraction(asked.tempo),
        lasts=sum((note.beats for note in notes), Fraction(0)),
        techniques=(technique.key,) if way == "whole" else (),
        dynamics=levels,
        sing=tuple(sung),
        mute=technique.of_mute or None,
    )


def _notes(technique: Technique, asked: PhraseAsked) -> tuple[_DegreeAt, ...]:
    """The notes of the shape, as often as they fill its bars, each time a step higher, then home."""
    times = int(1 / asked.pace) if asked.pace < 1 else 1
    rows: list[_DegreeAt] = []
    at = Fraction(0)
    for turn in range(times):
        shift = turn if turn < times - 1 or times == 2 else 0
        shift = 0 if times == 1 else shift
        for degree, beats in asked.shape.notes:
            rows.append(_DegreeAt(degree + shift, at, beats * asked.pace, False))
            at += beats * asked.pace
    if technique.pitched == "none":
        rows = [row._replace(degree=0) for row in rows]
    chosen = set(_chosen(technique, asked.share, rows))
    if way_of(technique) == "slide":
        rows = _widened(rows, chosen, asked.wider)
    return tuple(row._replace(used=n in chosen) for n, row in enumerate(rows))


def _chosen(technique: Technique, share: Share, rows: Sequence[_DegreeAt]) -> Iterator[int]:
    """The numbers of the notes that use the technique."""
    way = way_of(technique)
    if way == "whole":
        yield from range(len(rows))
        return
    longest = max(row.beats for row in rows)
    many = 0
    before = False
    for n, row in enumerate(rows):
        last = n == len(rows) - 1
        fits = not (way == "slide" and (last or rows[n + 1].degree == row.degree))
        if share in ("held", "long"):
            fits = fits and row.beats * 2 >= longest and (row.beats > rows[0].beats or row.beats == longest)
            fits = fits and n > 0
        if share == "held":
            fits = fits and many < 2 and not before
            # Out and back again divides a note in four, and a beginner's notes are quarters at least.
            fits = fits and (way not in ("bend", "quarter") or row.beats >= _DIVIDED)
        if share == "every other" or way == "slide" or (share == "all" and way == "quarter"):
            fits = fits and not before
        before = fits
        if fits:
            many += 1
            yield n


def _widened(rows: list[_DegreeAt], chosen: set[int], wider: int) -> list[_DegreeAt]:
    """With the ends of slides further away, in the direction of the shape."""
    made = list(rows)
    for n in sorted(chosen):
        here, there = made[n], rows[n + 1]
        way = 1 if there.degree > here.degree else -1
        made[n + 1] = there._replace(degree=there.degree + way * wider)
    return made


def _points(
    technique: Technique, way: Way, asked: PhraseAsked, note: _DegreeAt, here: Spelling
) -> Iterator[NewPoint]:
    """The points of one note."""
    about = technique.pitched != "exact" and (note.used or way == "whole")
    plain = NewPoint(pitch=here, at=note.at, about=about)
    if not note.used or way in ("whole", "slide", "note"):
        yield plain
    elif way == "tongue":
        count = max(1, int(asked.strokes * note.beats))
        for n in range(count):
            yield replace(plain, at=note.at + note.beats * n / count)
    elif way == "bend":
        yield from _out_and_back(plain, here.transposed(chromatic(-1)), note.beats, join_of(technique))
    else:
        step = Fraction(1, 2) if here.alter <= 0 else Fraction(-1, 2)
        quarter = replace(here, alter=here.alter + step)
        if asked.share in ("held", "long"):
            yield from _out_and_back(plain, quarter, note.beats, "none")
        else:
            yield replace(plain, pitch=quarter)


def _out_and_back(plain: NewPoint, out: Spelling, beats: Fraction, joined: LineKind) -> Iterator[NewPoint]:
    """A note for half its time, the one beside it for a quarter, and the note again."""
    at = plain.at or Fraction(0)
    yield plain
    yield replace(plain, pitch=out, at=at + beats / 2, line=joined)
    yield replace(plain, at=at + beats * 3 / 4, line=joined)
