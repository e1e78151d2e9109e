"""Fixes that rules propose; each is checked before it is shown."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from gesturesmith.diagnostics.changes import (
    BandChange,
    BreathAdded,
    DynamicsChange,
    Fix,
    LengthChange,
    LevelChange,
    LineChange,
    PitchChange,
    TechniquesChange,
    Transposition,
)
from gesturesmith.kinds import Layer
from gesturesmith.model.gesture import LEVELS, ContourPoint, DynamicMark, Gesture
from gesturesmith.model.times import spread
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.reading import written_pitch
from gesturesmith.techniques.base import clash
from gesturesmith.units import Spelling, simplest

_ACCENTS = {6: "sfz", 7: "sffz"}  # by the place of their attack in LEVELS


def instead(case: Case, layer: Layer, *keys: str) -> tuple[Fix, ...]:
    """Replace the technique on a layer by one of its kin, keeping the others; in the technique's own order of kin
    if no keys are given."""
    changes: list[Fix] = []
    kin = next((t.kin for t in case.gesture.techniques if t.layer == layer), ())
    for key in (k for k in keys or kin if k in kin and k != "ordinary"):
        row = [key if t.layer == layer else t.key for t in case.gesture.techniques]
        changes.append((TechniquesChange(tuple(dict.fromkeys(row))),))
    return tuple(changes)


def without(case: Case, *keys: str) -> tuple[Fix, ...]:
    """The gesture without some of its techniques, if the rest, or the plain note, can stand for it."""
    gone = [t for t in case.gesture.techniques if t.key in keys]
    kept = [t for t in case.gesture.techniques if t.key not in keys]
    if not all("ordinary" in t.kin or any(clash(t, other) for other in kept) for t in gone):
        return ()
    return ((TechniquesChange(tuple(t.key for t in kept)),),)


def lasting(gesture: Gesture, seconds: float) -> tuple[Fix, ...]:
    """A length of at least this many seconds: in whole beats or, for a gesture in seconds, in seconds."""
    if gesture.in_seconds:
        tenths = -int(-seconds * 10 // 1)
        return ((LengthChange(Fraction(tenths, 10), True),),) if 0 < tenths < 10**6 else ()
    beats = float(gesture.tempo / gesture.beat) * seconds / 60
    whole = max(1, -int(-beats // 1))
    if whole > 64:
        return ()
    return ((LengthChange(Fraction(whole), False),),)


def slower(gesture: Gesture, factor: float) -> tuple[Fix, ...]:
    """The gesture lengthened by a factor, rounded up."""
    return lasting(gesture, float(gesture.seconds) * factor)


def breaths(
    gesture: Gesture, start: Fraction = Fraction(0), end: Fraction | None = None, *, slurs: bool = False
) -> tuple[Fix, ...]:
    """A breath in the middle of a stretch (in beats), then one at each quarter; only after detached notes.

    slurs   whether, if there are none, a slur may be ended at a breath
    """
    until = gesture.beats if end is None else end
    inside = [
        i
        for i, segment in enumerate(gesture.segments)
        if segment.kind in ("none", "slur")
        and "silence" not in (gesture.points[i].kind, gesture.points[i + 1].kind)
        and not gesture.points[i].gives_breath
        and start < gesture.points[i].until < until
    ]
    free = [i for i in inside if gesture.segments[i].kind == "none"] or (inside if slurs else [])
    ends = [gesture.points[i].until for i in free]
    found: list[Fix] = []
    for parts in (2, 4) if free else ():
        goals = [start + (until - start) * k / parts for k in range(1, parts)]
        nearest = {free[_nearest(ends, goal)] for goal in goals}
        places = sorted(nearest)
        slurred = (LineChange(i, "none") for i in places if gesture.segments[i].kind == "slur")
        found.append((*(BreathAdded(i) for i in places), *slurred))
    return tuple(dict.fromkeys(found))


def _nearest(times: Sequence[Fraction], goal: Fraction) -> int:
    """The index of the time nearest to a goal, the first if two are equally near; times ascend."""
    after = bisect_left(times, goal)
    around = times[max(0, after - 1) : after + 1]
    return bisect_left(times, min(around, key=lambda at: (abs(at - goal), at)))


def about(gesture: Gesture, *indices: int) -> tuple[Fix, ...]:
    """Approximate pitches in place of exact ones; x-notes have no cents."""
    change = tuple(
        PitchChange(i, _plain(pitch.written), True)
        for i in indices
        if (pitch := gesture.points[i].pitch) is not None and not gesture.points[i].about
    )
    return (change,) if change else ()


def exact_points(gesture: Gesture) -> tuple[int, ...]:
    return tuple(i for i, p in enumerate(gesture.points) if p.kind == "pitch" and not p.about)


def at_pitch(case: Case, index: int, sounding_cents: float) -> tuple[Fix, ...]:
    """One point moved to the tempered pitch nearest to a sounding one, if its lines still go somewhere."""
    point = case.gesture.points[index]
    note = 100 * round(sounding_cents / 100)
    if point.pitch is None or any(p.sounding_cents == note for p in joined(case.gesture, index)):
        return ()
    return ((PitchChange(index, written_pitch(case.instrument, note), point.about),),)


def joined(gesture: Gesture, index: int) -> tuple[ContourPoint, ...]:
    """The neighbours joined to a point by a sliding line."""
    sides = ((index - 1, index - 1), (index, index + 1))
    return tuple(
        gesture.points[i]
        for line, i in sides
        if 0 <= line < len(gesture.segments) and gesture.segments[line].slides
    )


def band_cut(case: Case) -> tuple[Fix, ...]:
    """The part of a band given by pitches that is in the usual range, if it is at least a whole tone."""
    band = case.gesture.band
    if band is None or band.register:
        return ()
    low, high = case.instrument.usual_range.value
    bottom, top = max(band.low.cents, Fraction(low)), min(band.high.cents, Fraction(high))
    if top - bottom < 200:
        return ()
    ends = ((band.low, bottom), (band.high, top))
    low_end, high_end = (p.written if p.cents == at else written_pitch(case.instrument, at) for p, at in ends)
    return ((BandChange(low_end, high_end),),)


def moved(semitones: int) -> tuple[Fix, ...]:
    """The whole gesture transposed by a number of semitones; `all_moved` moves each pitch separately."""
    return ((Transposition(semitones),),)


def all_moved(case: Case, semitones: int) -> Fix:
    """Every pitch transposed, and a band given by pitches; () if that is impossible."""
    gesture = case.gesture
    by = simplest(semitones, [p.pitch.written for p in gesture.points if p.pitch is not None])
    pitches = {i: p.pitch.written.transposed(by) for i, p in enumerate(gesture.points) if p.pitch is not None}
    band: tuple[Spelling, ...] = ()
    if gesture.band is not None and not gesture.band.register:
        band = tuple(end.written.transposed(by) for end in (gesture.band.low, gesture.band.high))
    elif any(p.kind == "height" for p in gesture.points):
        return ()  # heights in a register cannot move
    if any(not 0 <= pitch.octave <= 9 for pitch in (*pitches.values(), *band)):
        return ()  # beyond the octaves that can be written
    change = tuple(PitchChange(i, p, gesture.points[i].about) for i, p in pitches.items())
    return (*change, BandChange(*band)) if band else change


def at_most(gesture: Gesture, level: str) -> tuple[Fix, ...]:
    """Softer dynamics of the same shape, changed only as much as needed for none to exceed `level`."""
    words = softened(gesture, level)
    return (dynamics(gesture, words),) if words else ()


def at_least(gesture: Gesture, level: str) -> tuple[Fix, ...]:
    """Louder dynamics in the same way, so that none is below `level`; niente stays."""
    new: dict[int, int] = {}
    least = LEVELS.index(level)
    for place in sorted(_places(gesture)):
        new[place] = max(place, least)
        least = new[place] + 1
    words = _words(gesture, new)
    return (dynamics(gesture, words),) if words else ()


def softened(gesture: Gesture, level: str) -> tuple[str, ...]:
    """The dynamics in words with none above `level`: each stays louder or softer than the one before, niente stays.
    () if that changes nothing or there are not enough levels.
    """
    new: dict[int, int] = {}
    most = LEVELS.index(level)
    for place in sorted(_places(gesture), reverse=True):
        new[place] = min(place, most)
        most = new[place] - 1
    return _words(gesture, new)


def with_levels(gesture: Gesture, words: tuple[str, ...]) -> Gesture:
    """The gesture with these dynamics in place of its own."""
    marks = zip(_marks(gesture), words, strict=True)
    return replace(gesture, dynamics=tuple(replace(mark, level=word) for mark, word in marks))


def dynamics(gesture: Gesture, words: tuple[str, ...]) -> Fix:
    """The edit that writes the dynamics, at their old places."""
    marked = [i for i, p in enumerate(gesture.points) if p.dynamic]
    if marked:
        return tuple(LevelChange(i, word) for i, word in zip(marked, words, strict=True))
    marks = _marks(gesture)
    detached = len(marks) < 2 or not marks[-2].join
    usual = spread([None] * len(marks), detached=detached, length=gesture.beats)
    placed = tuple(mark.at for mark in marks) != usual
    row: list[tuple[str, Fraction | None, str]] = []
    for number, (mark, word) in enumerate(zip(marks, words, strict=True)):
        at = mark.at * 60 / gesture.tempo if gesture.in_seconds else mark.at / gesture.beat
        ends = number == len(marks) - 1 and not detached and mark.at == gesture.beats
        row.append((word, at if placed and not ends and (at or number) else None, mark.join))
    return (DynamicsChange(tuple(row)),)


def _marks(gesture: Gesture) -> tuple[DynamicMark, ...]:
    """The dynamics, or the level assumed for a gesture without any."""
    return gesture.dynamics or (DynamicMark(level="mf", at=Fraction(0), join="", span=gesture.span),)


def _places(gesture: Gesture) -> set[int]:
    """The places in LEVELS of all marks but niente."""
    return {LEVELS.index(mark.plain) for mark in _marks(gesture)} - {0}


def _words(gesture: Gesture, new: dict[int, int]) -> tuple[str, ...]:
    """Each mark at its new level; () if nothing changes or there is no such level or accent."""
    words = []
    for mark in _marks(gesture):
        old = LEVELS.index(mark.plain)
        place = new.get(old, old)
        if place == old:
            words.append(mark.level)
        elif 1 <= place < len(LEVELS) and (mark.level in LEVELS or place in _ACCENTS):
            words.append(LEVELS[place] if mark.level in LEVELS else _ACCENTS[place])
        else:
            return ()
    return tuple(words) if words != [mark.level for mark in _marks(gesture)] else ()


def _plain(spelling: Spelling) -> Spelling:
    return Spelling(spelling.letter, spelling.alter, spelling.octave)
