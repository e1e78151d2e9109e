"""What a file asks for, from its text through `lang` and `model`: the notes to play, in order.

The rules are those of docs/language.md, restated independently: which points are attacked, which head a pitch gets,
how the end of a line looks.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import log2

from gesturesmith.acoustics.series import partial_cents
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.changes import (
    DoubleBar,
    KeyChange,
    MeterChange,
    RehearsalMark,
    TempoChange,
    TempoGradually,
)
from gesturesmith.model.gesture import ContourPoint, Gesture, Segment, attack_times
from gesturesmith.model.piece import Passage
from gesturesmith.units import Interval, KeySignature, Spelling

_VALUES = (Fraction(1, 16), Fraction(1, 24))  # beats: down to the 64th or its triplet


@dataclass(frozen=True)
class Asked:
    """A note the file asks for.

    at        beats from the beginning; None if only its order is known
    ends      its end; None: a line leaves it, so its value only begins it
    spelling  as written (or sounding, in a concert score); None for a height
    steps     of a height on five lines: exact diatonic steps above C0; on three lines: half staff spaces
    form      of its head
    begins    attack | slur | line
    stops     where a line stops: small, in brackets
    vague     on a line between points: approximate, without accidental
    timed     its gesture may be written without note values, as the language page allows
    feathered attacks under a feathered beam
    above     cents by which a second head may be above, if neighbouring partials are held at once
    stroke    it has no pitch and no length
    grace     "" | "slashed" | "plain": small and outside the time; slashed before its note, plain after it
    graces, after   those of a note, until all stand in one row
    repeats   beats of each repeat that strokes through the stem stand for, None without; `rolled`: strokes that are
              a technique's
    words     above it, where strokes are not to be counted
    led       a line leads to it from a grace note, so that it has its value all the same
    """

    at: Fraction | None
    ends: Fraction | None
    spelling: Spelling | None
    steps: Fraction | None
    three_lines: bool
    form: str
    begins: str
    stops: bool = False
    vague: bool = False
    timed: bool = False
    feathered: bool = False
    stroke: bool = False
    sung: bool = False
    above: frozenset[int] | None = None
    extreme: str = ""
    marks: frozenset[str] = frozenset()
    grace: str = ""
    graces: tuple[Asked, ...] = ()
    after: tuple[Asked, ...] = ()
    led: bool = False
    repeats: Fraction | None = None
    rolled: bool = False
    words: str = ""


@dataclass(frozen=True)
class Trilled:
    """A trill, shake or tremolo: `signed` if it has a sign (None: either); its other note, or if none is named the
    half steps that it may be above (none for a trill on one pitch)."""

    at: Fraction
    signed: bool | None
    note: Spelling
    other: Spelling | None
    apart: frozenset[int]


@dataclass(frozen=True)
class Said:
    """A gesture or passage as the file asks for it.

    notes      the played voice, then the sung ones
    silences   stretches in which a voice rests, in beats, joined
    meter      (beats, unit) or None
    length     beats
    signs      (moment, kind, text) of what stands at points: "words" above, "syllable" below, "breath" in or out
    bar        number of the first whole bar; `pickup`: beats before it
    key        sharps, or flats below 0; `meters`: each from a moment on
    changes    (moment, kind, text): "meter", "key", "mark", "double", "tempo" in quarters, and "gradually" with its
               word and its end
    """

    notes: tuple[Asked, ...]
    silences: tuple[tuple[Fraction, Fraction], ...]
    meter: tuple[int, int] | None
    length: Fraction
    repeated: int = 1
    levels: tuple[tuple[Fraction, str], ...] = ()
    hairpins: tuple[tuple[Fraction, Fraction, str], ...] = ()
    tempo: Fraction | None = None
    frames: tuple[tuple[Fraction, Fraction], ...] = ()
    repeated_on: tuple[tuple[Fraction, Fraction, str], ...] = ()
    signs: tuple[tuple[Fraction, str, str], ...] = ()
    trills: tuple[Trilled, ...] = ()
    fingers: tuple[tuple[Fraction, str], ...] = ()
    bar: int | None = None
    pickup: Fraction = Fraction(0)
    key: int = 0
    changes: tuple[tuple[Fraction, str, str], ...] = ()
    meters: tuple[tuple[Fraction, tuple[int, int]], ...] = ()


def of_gesture(gesture: Gesture, *, pitches: str = "written", heights: str = "auto") -> Said:
    """A gesture by itself, without meter."""
    lines = three_lines((gesture,), heights)
    notes, silences = _notes(gesture, Fraction(0), pitches, lines, None)
    return Said(
        tuple(notes),
        _joined(silences),
        None,
        gesture.beats,
        levels=tuple(_levels(gesture, Fraction(0))),
        hairpins=tuple(_hairpins(gesture, Fraction(0))),
        signs=tuple(_signs(gesture, Fraction(0))),
        trills=tuple(_trills(gesture, Fraction(0), pitches)),
        fingers=tuple(_fingers(gesture, Fraction(0))),
    )


def of_passage(passage: Passage, *, pitches: str = "written", heights: str = "auto") -> Said:
    """A passage, a repeated stretch once."""
    gestures = tuple(i.gesture for i in passage.items if i.gesture is not None)
    lines = three_lines(gestures, heights)
    notes: list[Asked] = []
    silences: list[tuple[Fraction, Fraction]] = []
    levels: list[tuple[Fraction, str]] = []
    hairpins: list[tuple[Fraction, Fraction, str]] = []
    signs: list[tuple[Fraction, str, str]] = []
    trills: list[Trilled] = []
    fingers: list[tuple[Fraction, str]] = []
    for item in passage.items:
        if item.box is not None and item.box.goes_on:
            continue
        if item.gesture is None:
            silences.append((item.at, item.at + item.beats))
            continue
        more, quiet = _notes(item.gesture, item.at, pitches, lines, passage.meter)
        notes += more
        silences += quiet
        levels += _levels(item.gesture, item.at)
        hairpins += _hairpins(item.gesture, item.at)
        signs += _signs(item.gesture, item.at)
        trills += _trills(item.gesture, item.at, pitches)
        fingers += _fingers(item.gesture, item.at)
    length = passage.items[-1].at + passage.items[-1].beats
    if passage.meter is not None and not passage.repeats:
        start, (count, unit) = [m for m in _meters(passage) if m[0] <= length][-1]
        bar = Fraction(4 * count, unit)
        since = start or passage.pickup
        if (length - since) % bar:
            silences.append((length, length + bar - (length - since) % bar))
    notes.sort(key=lambda n: n.sung)
    return Said(
        tuple(notes),
        _joined(silences),
        passage.meter,
        length,
        repeated=passage.repeats[0].times if passage.repeats else 1,
        levels=tuple(levels),
        hairpins=tuple(hairpins),
        tempo=passage.tempo,
        bar=passage.bar,
        pickup=passage.pickup,
        key=_fifths(passage.key, passage, pitches) if passage.key is not None else 0,
        changes=tuple(sorted(_changes(passage, pitches))),
        meters=tuple(_meters(passage)),
        signs=tuple(signs),
        trills=tuple(trills),
        fingers=tuple(fingers),
        frames=tuple(_frames(passage)),
        repeated_on=tuple(_lines(passage)),
    )


def _meters(passage: Passage) -> list[tuple[Fraction, tuple[int, int]]]:
    if passage.meter is None:
        return []
    later = [(c.at, c.meter) for c in passage.changes if isinstance(c, MeterChange)]
    return [(Fraction(0), passage.meter), *later]


def _fifths(key: KeySignature, passage: Passage, pitches: str) -> int:
    """The signs of a key on the page: a part has it as far from the sounding one as its pitches are."""
    instrument = next(i.gesture.instrument for i in passage.items if i.gesture is not None)
    if pitches == "sounding" or not key.mode:
        return key.fifths
    # C written sounds as a note whose place on the line of fifths says how far apart the keys are.
    heard = instrument.heard(Spelling("C", Fraction(0), 4))
    found = key.fifths - "FCGDAEB".index(heard.letter) + 1 - 7 * int(heard.alter)
    return found - 12 if found > 7 else found + 12 if found < -7 else found


def _changes(passage: Passage, pitches: str):
    key = _fifths(passage.key, passage, pitches) if passage.key is not None else 0
    told = {c.at for c in passage.changes if isinstance(c, TempoChange)}
    length = passage.items[-1].at + passage.items[-1].beats
    for c in passage.changes:
        match c:
            case TempoChange():
                yield c.at, "tempo", f"{float(c.tempo):g}"
            case TempoGradually():
                yield c.at, "gradually", f"{c.turn[:3]} {float(c.until):g}"
                if c.until not in told and c.until < length:
                    yield c.until, "tempo", f"{float(c.tempo):g}"
            case MeterChange():
                yield c.at, "meter", "{}/{}".format(*c.meter)
            case KeyChange():
                now, key = key, _fifths(c.key, passage, pitches)
                if key != now:  # a relative key looks the same
                    yield c.at, "key", str(key)
            case RehearsalMark():
                yield c.at, "mark", c.text
            case DoubleBar():
                yield c.at, "double", ""


def _frames(passage: Passage):
    """A frame round each cell of a box."""
    for item in passage.items:
        if item.box is not None and item.box.first:
            start = item.at
        if item.box is not None and item.box.last:
            yield start, item.at + item.beats


def _lines(passage: Passage):
    """A line with an arrow after the cells, which says how long they are repeated or until what."""
    for item in passage.items:
        if item.box is not None and item.box.goes_on:
            box = item.box.box
            seconds = box.beats * 60 / passage.tempo_map.tempo_at(item.at)
            length = f"{float(seconds):g} s" if box.in_seconds else f"{float(box.beats):g} beats"
            until = f"until “{box.cue}”" + (f", within {length}" if box.within else "")
            yield item.at, item.at + item.beats, until if box.cue else length


def with_rest_after(said: Said) -> Said:
    """A line of a sheet, with the whole-bar rest after it."""
    if said.meter is None:
        return said
    bar = Fraction(4 * said.meter[0], said.meter[1])
    end = -(-said.length // bar) * bar
    return replace(said, silences=_joined([*said.silences, (end, end + bar)]))


def within(
    said: Said, before: tuple[str, ...], after: tuple[str, ...], transposed: bool, *, key: int, meter: str
) -> Said:
    """A gesture in a composer's score in 4/4, in a meter of its own between the composer's quarter notes; perhaps
    transposed up a tone.

    key   sharps of the score, or flats below 0
    """
    first = Fraction(len(before))
    earlier = [_plain(name, Fraction(n)) for n, name in enumerate(before)]
    later = [_plain(name, first + said.length + n) for n, name in enumerate(after)]
    moved = [
        replace(
            note,
            at=note.at + first if note.at is not None else None,
            ends=note.ends + first if note.ends is not None else None,
            spelling=note.spelling.transposed(_TONE) if transposed and note.spelling is not None else note.spelling,
            steps=note.steps + 1 if transposed and note.steps is not None else note.steps,
        )
        for note in said.notes
    ]
    notes = [*earlier, *(n for n in moved if not n.sung), *later, *(n for n in moved if n.sung)]
    silences = tuple((a + first, b + first) for a, b in said.silences)
    up = _TONE if transposed else Interval(0, Fraction(0))
    trills = tuple(
        replace(
            trill,
            at=trill.at + first,
            note=trill.note.transposed(up),
            other=trill.other.transposed(up) if trill.other is not None else None,
        )
        for trill in said.trills
    )
    return replace(
        said,
        key=key,
        changes=((first, "meter", meter), (first + said.length, "meter", "4/4")),
        trills=trills,
        fingers=tuple((at + first, text) for at, text in said.fingers),
        notes=tuple(notes),
        silences=silences,
        meter=(4, 4),
        levels=tuple((at + first, level) for at, level in said.levels),
        hairpins=tuple((a + first, b + first, sign) for a, b, sign in said.hairpins),
        signs=tuple((at + first, kind, text) for at, kind, text in said.signs),
    )


_TONE = Interval(1, Fraction(200))


def _plain(name: str, at: Fraction) -> Asked:
    alter = {"b": -1, "#": 1}.get(name[1:-1], 0)
    spelling = Spelling(name[0], Fraction(alter), int(name[-1]))
    return Asked(
        at=at, ends=at + 1, spelling=spelling, steps=None, three_lines=False, form="normal", begins="attack"
    )


def three_lines(gestures: tuple[Gesture, ...], heights: str) -> bool:
    """Heights alone in named registers are on three lines; those in a band of pitches on five, unless asked
    otherwise."""
    points = [p for g in gestures for p in g.points if p.kind != "silence"]
    if heights == "band" or not points or any(p.kind == "pitch" for p in points):
        return False
    if any(g.sing is not None for g in gestures):
        return False
    return heights == "lines" or all(g.band is None or g.band.register for g in gestures)


def _notes(
    gesture: Gesture, start: Fraction, pitches: str, lines: bool, meter: tuple[int, int] | None
) -> tuple[list[Asked], list[tuple[Fraction, Fraction]]]:
    if gesture.attacks is not None:
        notes = list(_attacked(gesture, start, pitches, lines))
    else:
        notes = list(_of_points(gesture, gesture.points, gesture.segments, start, pitches, lines))
    notes = [one for note in notes for one in (*note.graces, replace(note, graces=(), after=()), *note.after)]
    silences = [(start + p.at, start + p.until) for p in gesture.points if p.kind == "silence"]
    if gesture.sing is not None:
        sung = _of_points(gesture, gesture.sing.points, gesture.sing.segments, start, pitches, lines)
        known = (*gesture.techniques, *(t for point in gesture.points for t in point.techniques))
        head = next((t.look.sung_head for t in known if t.look.sung_head), "normal")
        silences += [(start + p.at, start + p.until) for p in gesture.sing.points if p.kind == "silence"]
        notes += [replace(note, sung=True, stroke=False, above=None, form=head) for note in sung]
    return notes, silences


def _of_points(
    gesture: Gesture,
    points: tuple[ContourPoint, ...],
    segments: tuple[Segment, ...],
    start: Fraction,
    pitches: str,
    lines: bool,
):
    for index, point in enumerate(points):
        if point.kind == "silence":
            continue
        slides = index < len(segments) and segments[index].slides
        passed = point.reached == "line" and not point.held
        yield _asked(
            gesture,
            point,
            at=start + point.at,
            ends=None if slides or passed else start + point.until,
            begins=point.reached,
            pitches=pitches,
            lines=lines,
            timed=gesture.in_seconds or _uneven(gesture, start) or passed,
        )


def _attacked(gesture: Gesture, start: Fraction, pitches: str, lines: bool):
    """`attacks: N`: if N is the number of detached points, each is one, spaced by the shape; otherwise N attacks on
    the single pitch or along the single line. Points reached by lines and slurs come in addition."""
    times = attack_times(gesture)
    shaped = bool(gesture.attacks and gesture.attacks.shape)
    detached = [n for n, p in enumerate(gesture.points) if p.reached == "attack" and p.kind != "silence"]
    timed = gesture.in_seconds or _uneven(gesture, start)
    if len(detached) > 1:
        at = dict(zip(detached, times, strict=False)) if len(detached) == len(times) else {}
        rest = dict(zip(detached, [*times[1:], gesture.beats], strict=False))
        for index, point in enumerate(gesture.points):
            if point.kind == "silence":
                continue
            slides = index < len(gesture.segments) and gesture.segments[index].slides
            own = at.get(index)
            following = gesture.points[index + 1] if index + 1 < len(gesture.points) else None
            plain = own is not None and (following is None or following.reached == "attack") and not shaped
            yield _asked(
                gesture,
                point,
                at=start + own if own is not None else None,
                ends=start + rest[index] if plain and not slides else None,
                begins=point.reached,
                pitches=pitches,
                lines=lines,
                timed=timed or shaped or (point.reached == "line" and not point.held),
                feathered=shaped,
            )
        return
    points = [p for p in gesture.points if not p.stops]
    starts = [p.at for p in points]
    moments = sorted({*times, *(p.at for p in points if p.reached != "attack")})
    for n, now in enumerate(moments):
        index = bisect_right(starts, now) - 1
        point = points[index]
        if point.kind == "silence":
            continue
        until = moments[n + 1] if n + 1 < len(moments) else gesture.beats
        slides = index < len(gesture.segments) and gesture.segments[index].slides
        attacked = now in times
        common = {
            "at": start + now,
            "ends": None if slides or shaped else start + until,
            "begins": "attack" if attacked else point.reached,
            "pitches": pitches,
            "lines": lines,
            "timed": timed or shaped or not attacked,
            "feathered": shaped,
        }
        if slides and point.at != now:
            following = gesture.points[index + 1]
            share = (now - point.at) / (following.at - point.at)
            yield _between(gesture, point, following, share, **common)
        else:
            yield _asked(gesture, point, first=point.at == now, **common)
    if gesture.points[-1].stops:
        stop, end = gesture.points[-1], start + gesture.beats
        yield _asked(gesture, stop, at=end, ends=None, begins="line", pitches=pitches, lines=lines, timed=True)


def _asked(
    gesture: Gesture,
    point: ContourPoint,
    *,
    at: Fraction | None,
    ends: Fraction | None,
    begins: str,
    pitches: str,
    lines: bool,
    timed: bool,
    feathered: bool = False,
    first: bool = True,
) -> Asked:
    spelling = None
    if point.pitch is not None:
        spelling = point.pitch.sounding if pitches == "sounding" else point.pitch.written
    graces, begins, led = _graces(gesture, point, begins, pitches) if first else ((), begins, False)
    return Asked(
        graces=graces,
        after=tuple(
            _grace(gesture, grace.point, _begun(grace.join), pitches, "plain")
            for grace in (point.after if ends is not None else ())
        ),
        led=led,
        repeats=_REPEATS[point.strokes] if point.strokes else None,
        rolled=any(t.look.tremolo for t in point.techniques),
        words="as fast as possible" if _says_unmeasured(gesture, point) else "",
        at=at,
        ends=ends,
        spelling=spelling,
        steps=None if spelling is not None else _height(gesture, point, pitches, lines),
        three_lines=lines,
        form=form(gesture, point),
        begins=begins,
        stops=point.stops,
        timed=timed,
        feathered=feathered,
        stroke=any(t.pitched == "none" for t in point.techniques),
        above=_neighbours(gesture.instrument, point) if any(t.holds > 1 for t in point.techniques) else None,
        extreme=point.extreme,
        marks=frozenset(point.marks) - {"breath", "inhale", "exhale"},
    )


_REPEATS = {"eighths": Fraction(1, 2), "sixteenths": Fraction(1, 4), "thirty-seconds": Fraction(1, 8)}
_REPEATS["unmeasured"] = Fraction(1, 8)  # three strokes, and words


def _says_unmeasured(gesture: Gesture, point: ContourPoint) -> bool:
    """Where repetition that nobody counts begins, words say so."""
    before = [p.strokes for p in gesture.points if p.at < point.at and p.strokes]
    return point.strokes == "unmeasured" and before[-1:] != ["unmeasured"]


def _graces(
    gesture: Gesture, point: ContourPoint, begins: str, pitches: str
) -> tuple[tuple[Asked, ...], str, bool]:
    """The grace notes before a point; how that begins then, and whether a line leads to it from the last."""
    row = []
    for grace in point.graces:
        row.append(_grace(gesture, grace.point, begins, pitches, "slashed"))
        begins = _begun(grace.join)
    return tuple(row), begins, bool(row) and begins == "line"


def _begun(join: Segment) -> str:
    return "attack" if join.kind == "none" else "slur" if join.kind == "slur" else "line"


def _grace(gesture: Gesture, point: ContourPoint, begins: str, pitches: str, grace: str) -> Asked:
    assert point.pitch is not None
    return Asked(
        at=None,
        ends=None,
        spelling=point.pitch.sounding if pitches == "sounding" else point.pitch.written,
        steps=None,
        three_lines=False,
        form=form(gesture, point),
        begins=begins,
        marks=frozenset(point.marks),
        grace=grace,
    )


def _neighbours(instrument: Instrument, point: ContourPoint) -> frozenset[int] | None:
    """How far the next partial is above a pitch, to the semitone, on every tube that gives the pitch within half of
    one."""
    if point.sounding_cents is None or point.pitch is None:
        return None
    heard = float(point.sounding_cents)
    return frozenset(
        100 * round((tube.fundamental_cents + partial_cents(n + 1) - heard) / 100)
        for tube in instrument.tubes
        for n in range(1, 33)
        if abs(tube.fundamental_cents + partial_cents(n) - heard) < _NEAR
    )


_NEAR = 60  # cents: closer than the next semitone, allowing for three valves too short by a quarter tone


def _between(gesture: Gesture, one: ContourPoint, two: ContourPoint, share: Fraction, **common) -> Asked:
    """An attack on a line: approximately at the height of the line."""
    made = _asked(gesture, one, **common)
    ends = [_steps(gesture, p, common["pitches"], common["lines"]) for p in (one, two)]
    steps = None if None in ends else ends[0] + share * (ends[1] - ends[0])  # type: ignore[operator]
    auto = gesture.notehead == "auto"
    return replace(
        made, spelling=None, steps=steps, vague=True, form="x" if auto else made.form, above=None, extreme=""
    )


def _steps(gesture: Gesture, point: ContourPoint, pitches: str, lines: bool) -> Fraction | None:
    if point.pitch is not None:
        return Fraction((point.pitch.sounding if pitches == "sounding" else point.pitch.written).steps)
    return _height(gesture, point, pitches, lines)


def _height(gesture: Gesture, point: ContourPoint, pitches: str, lines: bool) -> Fraction | None:
    """A height: in the band on five lines; on three, the outer lines are 0 and 100 %. None: only beyond."""
    if point.extreme and (lines or gesture.band is None):
        return None
    percent = point.percent
    if percent is None:
        percent = Fraction(100 if point.extreme == "highest" else 0)
    if lines:
        return Fraction(-4) + 8 * percent / 100
    if gesture.band is None:
        return None
    low, high = (
        (p.sounding if pitches == "sounding" else p.written).steps for p in (gesture.band.low, gesture.band.high)
    )
    return low + (high - low) * percent / 100


def form(gesture: Gesture, point: ContourPoint) -> str:
    """The head: as asked; else a triangle at the extremes, x if approximate, else that of the last technique with
    one."""
    if gesture.notehead not in ("auto", "triangle"):
        return gesture.notehead
    if gesture.notehead == "triangle" or point.extreme:
        return "triangle-down" if point.extreme == "lowest" else "triangle-up"
    if point.about:
        return "x"
    wanted = [t.look.head for t in point.techniques if t.look.head not in ("auto", "normal")]
    return wanted[-1] if wanted else "normal"


def _uneven(gesture: Gesture, start: Fraction) -> bool:
    """Whether a gesture has a time that is no multiple of a 64th: it may be written in tuplets, or without note
    values; but so many even notes in a beat or two are always a tuplet where a bar begins with them."""
    if _even(gesture) and start == 0:
        return False
    own = {p.at for p in gesture.points} | {gesture.beats}
    if gesture.attacks is not None:
        own |= set(attack_times(gesture))
    if gesture.sing is not None:
        own |= {p.at for p in gesture.sing.points}
    return any((start + at) % _VALUES[0] for at in own)


def _even(gesture: Gesture) -> bool:
    """Whether its notes are 5, 6, 7, 9, 10, 11 even ones in one or two beats."""
    if gesture.sing is not None or any(p.reached not in ("attack", "slur") for p in gesture.points):
        return False
    attacks = gesture.attacks
    if attacks is not None and attacks.shape:
        return False
    times = attack_times(gesture) if attacks is not None else tuple(p.at for p in gesture.points)
    even = tuple(gesture.beats * n / len(times) for n in range(len(times)))
    return len(times) in (5, 6, 7, 9, 10, 11) and gesture.beats in (1, 2) and tuple(times) == even


def _levels(gesture: Gesture, start: Fraction) -> list[tuple[Fraction, str]]:
    if gesture.dynamics:
        return [(start + m.at, m.level) for m in gesture.dynamics]
    return [(start + p.at, p.dynamic) for p in gesture.points if p.dynamic]


def _hand(point: ContourPoint) -> str:
    """The sign over a point at which something closes or opens: + o, or the o with a stroke for half."""
    if point.covers:
        return "half" if point.covers.startswith("half") else "+"
    return "o" if point.opens else ""


def _signs(gesture: Gesture, start: Fraction) -> list[tuple[Fraction, str, str]]:
    """What the composer says at points, silences too, of the played line and the sung one."""
    points = [*gesture.points, *(gesture.sing.points if gesture.sing is not None else ())]
    rows = [(start + p.at, p.words, p.syllable, p.breath) for p in points]
    rows = [(*row, _hand(p)) for row, p in zip(rows, points, strict=True)]
    kinds = ("words", "syllable", "breath", "hand")
    return [(at, kind, text) for at, *texts in rows for kind, text in zip(kinds, texts, strict=True) if text]


# Half steps above at which the other note may be, by kind, where none is named.
_APART = {
    "same": frozenset[int](),
    "above": frozenset((1, 2)),
    "other": frozenset((3,)),
    "neighbour": frozenset(round(12 * log2((n + 1) / n)) for n in range(1, 24)),
}


def _trills(gesture: Gesture, start: Fraction, pitches: str) -> Iterator[Trilled]:
    """The trills of exact pitches that are tongued, slurred or held."""
    for point in gesture.points:
        trill = next((t for t in point.techniques if t.trill), None)
        if trill is None or point.pitch is None or point.about or (point.reached == "line" and not point.held):
            continue
        if any(t.path == "half-valve" for t in point.techniques):
            continue
        note = point.pitch.sounding if pitches == "sounding" else point.pitch.written
        named = note.transposed(point.trill) if point.trill is not None else None
        sign = bool(trill.look.trill)
        yield Trilled(start + point.at, sign, note, named, _APART[trill.trill])


def _fingers(gesture: Gesture, start: Fraction) -> Iterator[tuple[Fraction, str]]:
    """Both fingerings of each trill for which the composer gives them."""
    asked = gesture.fingering
    sounding = gesture.sounding_points
    if not asked.others:
        return
    for n, point in enumerate(sounding):
        one, other = (row[n if len(row) > 1 else 0] for row in (asked.tubes, asked.others))
        if one and other and any(t.trill for t in point.techniques):
            yield start + point.at, f"{one} / {other}"


def _hairpins(gesture: Gesture, start: Fraction) -> list[tuple[Fraction, Fraction, str]]:
    return [(start + a.at, start + b.at, a.join) for a, b in pairwise(gesture.dynamics) if a.join]


def _joined(stretches: list[tuple[Fraction, Fraction]]) -> tuple[tuple[Fraction, Fraction], ...]:
    made: list[tuple[Fraction, Fraction]] = []
    for start, end in sorted(stretches):
        if made and start <= made[-1][1]:
            made[-1] = (made[-1][0], max(end, made[-1][1]))
        else:
            made.append((start, end))
    return tuple(made)
