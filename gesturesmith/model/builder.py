"""Complete gestures made by a program, without text, and checked like those of a file."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.diagnostics import ReadError
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import AttackShape, Extreme, Growth, Join, LineKind, Pitches, Shade
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import RULES, listed, shown
from gesturesmith.lang.reader import MAX_TEXT_LENGTH
from gesturesmith.lang.words import COVERS, LEVELS, MARKS, MAX_SYLLABLE, MUTES, STROKES
from gesturesmith.model import build
from gesturesmith.model.context import Context
from gesturesmith.model.gesture import Gesture
from gesturesmith.source import Span
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

_CONTOUR, _SUNG, _KEYS = 2, 3, 4  # used as line numbers in the spans of gestures made here
_HERE = Span(_KEYS, 1, 2)


@frozen(kw_only=True)
class NewPoint:
    """One point of a contour.

    pitch      its spelling; "highest" or "lowest"; a number: per cent of the band, from the bottom; None: silence
    about      the pitch is approximate
    at         its time, in beats (in seconds if the gesture is in seconds); None: spaced evenly
    line       the line that leads to it from the point before; ignored on the first
    growth     of a wavy line
    turns_to   key of the technique in force from here on, or several joined by `+`; "" for no change
    ends       keys of the techniques that end here
    marks      the language's words after a point: accents, `breath`, levels, strokes, what covers the bell
    words      text above it; `syllable`: spoken or breathed, under it
    graces     grace notes before it, each with the line that leads on from it; `after`: after the last point, each
               with the line that leads to it
    """

    pitch: Spelling | Extreme | Fraction | None
    about: bool = False
    at: Fraction | None = None
    line: LineKind = "none"
    growth: Growth = ""
    turns_to: str = ""
    ends: tuple[str, ...] = ()
    marks: tuple[str, ...] = ()
    words: str = ""
    syllable: str = ""
    graces: tuple[NewPoint, ...] = ()
    after: tuple[NewPoint, ...] = ()


@frozen(kw_only=True)
class NewLevel:
    """A dynamic level, its time (None: spaced evenly), and the hairpin that leads on from it."""

    level: str
    at: Fraction | None = None
    join: Join = ""


@frozen(kw_only=True)
class NewFingering:
    """Side ("" if there is none), valves or slide position ("1-2", "3", "auto"), and whether the slide is a little
    in or out; `other`: the second fingering of a timbre trill."""

    valves: str
    side: str = ""
    shade: Shade = ""
    other: NewFingering | None = None


@frozen(kw_only=True)
class NewGesture:
    """The content of a gesture; defaults are those of a file.

    pitches      whether pitches are written or sounding
    tempo        beats per minute
    lasts        beats, or seconds with `in_seconds`; None: one beat a point
    techniques   their keys
    attacks      their number, spaced by `shape`; None: one a note
    band         a register's name, or its lowest and highest pitch
    trill        what trills go to: an interval ("M2") or the note above; "" for the usual one. `tremolo`: the same
                 for tremolos
    fingering    one for all points or one for each; () leaves them to the player
    """

    instrument: Instrument
    points: tuple[NewPoint, ...]
    name: str = "new"
    pitches: Pitches = "written"
    tempo: Fraction = Fraction(60)
    lasts: Fraction | None = None
    in_seconds: bool = False
    techniques: tuple[str, ...] = ()
    dynamics: tuple[NewLevel, ...] = ()
    attacks: int | None = None
    shape: AttackShape = ""
    sing: tuple[NewPoint, ...] = ()
    band: str | tuple[Spelling, Spelling] | None = None
    mute: str | None = None
    fallback: str | None = None
    trill: str | Spelling = ""
    tremolo: str | Spelling = ""
    fingering: tuple[NewFingering, ...] = ()


def make(new: NewGesture) -> tuple[Gesture | None, tuple[ReadError, ...]]:
    """The complete gesture, or None with every error.

    The span of an error about a point has the point's number, from 1, as its column.

    >>> from gesturesmith import instruments
    >>> horn, c5, g5 = instruments.get("horn"), Spelling("C", Fraction(0), 5), Spelling("G", Fraction(0), 5)
    >>> points = NewPoint(pitch=c5), NewPoint(pitch=g5, line="wavy")
    >>> gesture, errors = make(NewGesture(instrument=horn, points=points, techniques=("half-valve",)))
    >>> gesture.beats, [float(p.sounding_cents) for p in gesture.points], errors
    (Fraction(2, 1), [6500.0, 7200.0], ())
    >>> [e.message for e in make(NewGesture(instrument=horn, points=points, techniques=("growling",)))[1]]
    ['unknown technique `growling`: did you mean `growl`?']
    """
    wrong = tuple(_wrong(new))
    if wrong:
        return None, wrong
    ctx = Context(new.instrument, new.pitches == "written", new.tempo)
    made = build.gesture(ctx, _block(new))
    return made, tuple(ctx.errors)


def _wrong(new: NewGesture) -> Iterator[ReadError]:
    """Errors that the reader of files would find."""
    for what, value in (("the tempo", new.tempo), ("the length", new.lasts), ("the count of attacks", new.attacks)):
        if value is not None and value <= 0:
            yield _error("out-of-range", _HERE, f"{what} must be more than 0")
    for line, points in ((_CONTOUR, new.points), (_SUNG, new.sing)):
        for index, point in enumerate(points):
            span = _span(line, index)
            yield from _unknown(point.marks, (*MARKS, *LEVELS, *STROKES, *COVERS), span)
            if len(point.syllable) > MAX_SYLLABLE:
                yield _error("out-of-range", span, f"a syllable has at most {MAX_SYLLABLE} letters")
            if len(point.words) > MAX_TEXT_LENGTH:
                yield _error("out-of-range", span, f"a text has at most {MAX_TEXT_LENGTH} characters")
            silent = point.pitch is None or points[index - 1].pitch is None
            if index and silent and point.line not in ("none", "slur"):
                yield _error("line-at-silence", span, "no line leads to or from silence")
    yield from _unknown(tuple(level.level for level in new.dynamics), LEVELS, _HERE)
    yield from _unknown((new.mute,) if new.mute is not None else (), MUTES, _HERE)


def _unknown(found: tuple[str, ...], known: tuple[str, ...], span: Span) -> Iterator[ReadError]:
    for word in found:
        if word not in known:
            yield _error("unknown-word", span, f"{shown(word)} is none of {listed(known)}")


def _error(rule: str, span: Span, message: str) -> ReadError:
    return ReadError(code=RULES[rule], rule=rule, span=span, message=message)


def _span(line: int, index: int) -> Span:
    return Span(line, index + 1, index + 2)


def _block(new: NewGesture) -> nodes.Block:
    entries: list[tuple[str, nodes.Value]] = [("contour", _contour(new.points, _CONTOUR))]
    if new.techniques:
        entries.append(("technique", nodes.Names(tuple(map(_word, new.techniques)), _HERE)))
    if new.lasts is not None:
        entries.append(("lasts", nodes.Amount(new.lasts, "s" if new.in_seconds else "beats", _HERE)))
    if new.dynamics:
        levels = tuple(nodes.LevelNode(level.level, _time(level.at), _HERE) for level in new.dynamics)
        entries.append(("dynamics", nodes.Dynamics(levels, tuple(n.join for n in new.dynamics[:-1]), _HERE)))
    if new.attacks is not None:
        entries.append(("attacks", nodes.AttacksNode(new.attacks, new.shape, _HERE)))
    if new.sing:
        entries.append(("sing", _contour(new.sing, _SUNG)))
    if isinstance(new.band, str):
        entries.append(("band", nodes.BandNode(_word(new.band), None, None, _HERE)))
    elif new.band is not None:
        low, high = (_note(pitch, False, _HERE) for pitch in new.band)
        entries.append(("band", nodes.BandNode(None, low, high, _HERE)))
    for key, other in (("trill", new.trill), ("tremolo", new.tremolo)):
        if isinstance(other, Spelling):
            entries.append((key, nodes.TrillNode(_note(other, False, _HERE), "", _HERE)))
        elif other:
            entries.append((key, nodes.TrillNode(None, other, _HERE)))
    if new.fingering:
        entries.append(("fingering", nodes.FingeringNode("given", tuple(map(_finger, new.fingering)), _HERE)))
    for key, word in (("mute", new.mute), ("fallback", new.fallback)):
        if word is not None:
            entries.append((key, _word(word)))
    return nodes.Block(
        kind="gesture",
        name=_word(new.name),
        title=None,
        entries=tuple(nodes.KeyEntry(_word(key), value, value.span) for key, value in entries),
        broken=False,
        last_line=_KEYS,
        indent="",
        span=Span(1, 1, 2),
    )


def _finger(new: NewFingering) -> nodes.Finger:
    other = _finger(new.other) if new.other is not None else None
    return nodes.Finger(new.side, new.valves, new.shade, _HERE, other)


def _contour(points: tuple[NewPoint, ...], line: int) -> nodes.Contour:
    made = tuple(_point(point, _span(line, index)) for index, point in enumerate(points))
    # A line has its own span, after those of the points.
    lines = tuple(
        nodes.LineNode(point.line, point.growth, _span(line, len(points) + index))
        for index, point in enumerate(points[1:])
    )
    return nodes.Contour(made, lines, Span(line, 1, len(points) + 1))


def _point(point: NewPoint, span: Span) -> nodes.PointNode:
    height: nodes.Note | nodes.Height | nodes.Rest
    if point.pitch is None:
        height = nodes.Rest(span)
    elif isinstance(point.pitch, Spelling):
        height = _note(point.pitch, point.about, span)
    elif isinstance(point.pitch, Fraction):
        height = nodes.Height(f"{point.pitch}%", point.pitch, span)
    else:
        height = nodes.Height(point.pitch, None, span)
    return nodes.PointNode(
        height=height,
        at=_time(point.at),
        as_=tuple(nodes.Word(key.strip(), span) for key in point.turns_to.split("+")) if point.turns_to else (),
        without=tuple(nodes.Word(key, span) for key in point.ends),
        marks=tuple(nodes.Word(mark, span) for mark in point.marks),
        graces=tuple(_grace(grace, span) for grace in point.graces),
        after=tuple(_grace(grace, span) for grace in point.after),
        texts=tuple(
            nodes.PointText(said, nodes.Text(text, span))
            for said, text in ((False, point.words), (True, point.syllable))
            if text
        ),
        span=span,
    )


def _grace(grace: NewPoint, span: Span) -> nodes.GraceNode:
    return nodes.GraceNode(_point(grace, span), nodes.LineNode(grace.line, grace.growth, span))


def _note(pitch: Spelling, about: bool, span: Span) -> nodes.Note:
    return nodes.Note(pitch.letter, pitch.alter, pitch.octave, pitch.cents, about, span)


def _time(at: Fraction | None) -> nodes.Amount | None:
    return nodes.Amount(at, "", _HERE) if at is not None else None


def _word(text: str) -> nodes.Word:
    return nodes.Word(text, _HERE)
