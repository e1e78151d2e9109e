"""Cues: what another part plays before an entry that comes after a long rest."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.kinds import StaffClef
from gesturesmith.score.marks import FrameStart
from gesturesmith.score.music import CueNotes, Music
from gesturesmith.score.rhythm import Meter
from gesturesmith.values import frozen

# When a player wants a cue, and how much of one: our own judgement.
_REST_BARS = 4
_CUE_BARS = 2
_BAR = Fraction(4)  # beats that count as a bar in free time
# Written cents: below, a cue in treble clef has too many ledger lines; above, one in another clef.
_LOWEST_TREBLE, _HIGHEST_BASS = 5300, 6700
_MIDDLE_LINE = {"treble": 7100, "bass": 5000}  # written cents: B4, D3


@frozen(kw_only=True)
class CuePart:
    """A part that others may take cues from: its name, for people and in LilyPond, and its line."""

    title: str
    quote: str
    music: Music


def cues(
    own: Music, others: tuple[CuePart, ...], *, above: Music | None = None, below: Music | None = None
) -> tuple[CueNotes, ...]:
    """The cues of a line: the last bars of each long rest, from the part that plays most in them; in free time as
    many beats.

    `above`, `below`: of two divided players, the line of the other one on the next staff, which is read along: only
    what both wait for has a cue, at who enters, above if both do.
    """
    beside = above or below
    found = []
    for start, end in _silences(own, *((beside,) if beside is not None else ())):
        enter = [any(e.sounds and e.start == end for e in m.events) for m in (own, above) if m is not None]
        if end == own.beats or not enter[0] or any(enter[1:]):
            continue
        cue = _in_bars(own, others, start, end) if own.bars.bar is not None else _free(own, others, start, end)
        found += [cue] if cue is not None else []
    return tuple(found)


def _in_bars(own: Music, others: tuple[CuePart, ...], start: Fraction, end: Fraction) -> CueNotes | None:
    """The cue of a rest, if it is long enough and somebody plays."""
    bars = own.bars
    whole = _whole_bars(bars, start, end)
    if len(whole) <= _REST_BARS:
        return None
    since, last = whole[-1 - _CUE_BARS], whole[-1]
    best = _best(others, since, last, whole[-1] - whole[-2])
    if best is None:
        return None
    begins = min(start for start, end, _ in _sounding(best.music) if end > since)
    return _cue(own, best, max(since, bars.bar_start(begins)), last)


def _free(own: Music, others: tuple[CuePart, ...], start: Fraction, end: Fraction) -> CueNotes | None:
    """The same without bars: the cue begins with a note, since part of one cannot be read."""
    if end - start < _REST_BARS * _BAR:
        return None
    since = end - _CUE_BARS * _BAR
    best = _best(others, since, end, _BAR)
    if best is None:
        return None
    begins = [at for at, _, _ in _sounding(best.music) if start <= at < end]
    later = [at for at in begins if at >= since]
    return _cue(own, best, min(later) if later else max(begins), end) if begins else None


def _best(others: tuple[CuePart, ...], since: Fraction, until: Fraction, bar: Fraction) -> CuePart | None:
    """The part that plays most between two times, other than what is repeated freely; None if nobody plays."""
    there = [part for part in others if not any(a < until and b > since for a, b in _boxes(part.music))]
    best = max(there, key=lambda part: _prominence(part.music, since, until, bar), default=None)
    return best if best is not None and _played(best.music, since, until) > 0 else None


def _cue(own: Music, best: CuePart, since: Fraction, until: Fraction) -> CueNotes:
    clef, above = _placed(own, best.music, since, until)
    return CueNotes(start=since, end=until, quote=best.quote, name=best.title, clef=clef, above=above)


def _boxes(music: Music) -> Iterator[tuple[Fraction, Fraction]]:
    """What stands in boxes or is repeated from them: from when to when."""
    since = None
    for part in music.parts:
        for event in part.played.events:
            if since is None and any(isinstance(mark, FrameStart) for one in event.whole for mark in one.marks):
                since = event.start
            if since is not None and event.goes_on:
                yield since, event.end
                since = None


def _whole_bars(bars: Meter, start: Fraction, end: Fraction) -> list[Fraction]:
    """The bar lines between two times."""
    first = bars.bar_start(start)
    at = first if first == start else bars.bar_end(start)
    found = []
    while at is not None and at <= end:
        found.append(at)
        at = bars.bar_end(at)
    return found


def _sounding(music: Music) -> Iterator[tuple[Fraction, Fraction, Fraction | None]]:
    """What is played: from when to when, and its sounding cents where it begins."""
    for part in music.parts:
        for event in part.played.events:
            if event.sounds:
                yield event.start, event.end, event.sounding_cents


def _silences(*musics: Music) -> Iterator[tuple[Fraction, Fraction]]:
    """When none of these plays, nor repeats a box."""
    at = Fraction(0)
    played = ((start, end) for music in musics for start, end, _ in _sounding(music))
    for start, end in sorted([*played, *(box for music in musics for box in _boxes(music))]):
        if start > at:
            yield at, start
        at = max(at, end)
    if at < musics[0].beats:
        yield at, musics[0].beats


def _played(music: Music, since: Fraction, until: Fraction) -> Fraction:
    """How long it sounds between two times."""
    within = (min(end, until) - max(start, since) for start, end, _ in _sounding(music))
    return sum((beats for beats in within if beats > 0), Fraction(0))


def _prominence(music: Music, since: Fraction, until: Fraction, bar: Fraction) -> tuple[bool, Fraction]:
    """How good a cue it is: leading up to the entry counts first, then how long it sounds."""
    return _played(music, until - bar, until) > 0, _played(music, since, until)


def _placed(own: Music, other: Music, since: Fraction, until: Fraction) -> tuple[StaffClef, bool]:
    """The clef in which a cue has few ledger lines, transposed as the part is, "" for the one in force; whether it
    stands in the upper half of the staff."""
    heard = [c for start, end, c in _sounding(other) if c is not None and start < until and end > since]
    if not heard:
        return "", True
    written = sum(heard, Fraction(0)) / len(heard) - own.transposition.cents
    here = _clef_at(own, since)
    if here == "treble":
        clef: StaffClef = "bass" if written < _LOWEST_TREBLE else ""
    else:
        clef = "treble" if written > _HIGHEST_BASS else ""
    return clef, written >= _MIDDLE_LINE.get(clef or here, 0)


def _clef_at(music: Music, at: Fraction) -> StaffClef:
    changes = [e.clef for part in music.parts for e in part.played.events if e.clef and e.start < at]
    return changes[-1] if changes else music.clef
