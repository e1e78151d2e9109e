"""Cues: what another part plays before an entry that comes after a long rest."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.kinds import StaffClef
from gesturesmith.score.music import CueNotes, Music
from gesturesmith.score.rhythm import Meter
from gesturesmith.values import frozen

# When a player wants a cue, and how much of one: our own judgement.
_REST_BARS = 4
_CUE_BARS = 2
# Written cents: below, a cue in treble clef has too many ledger lines; above, one in another clef.
_LOWEST_TREBLE, _HIGHEST_BASS = 5300, 6700
_MIDDLE_LINE = {"treble": 7100, "bass": 5000}  # written cents: B4, D3


@frozen(kw_only=True)
class CuePart:
    """A part that others may take cues from: its name, for people and in LilyPond, and its line."""

    title: str
    quote: str
    music: Music


def cues(own: Music, others: tuple[CuePart, ...]) -> tuple[CueNotes, ...]:
    """The cues of a line: the last bars of each long rest, from the part that plays most in them."""
    bars = own.bars
    if bars.bar is None:
        return ()
    found = []
    for start, end in _silences(own):
        whole = _whole_bars(bars, start, end)
        if end == own.beats or len(whole) <= _REST_BARS:
            continue
        since, bar, last = whole[-1 - _CUE_BARS], whole[-1] - whole[-2], whole[-1]
        best = max(others, key=lambda part: _prominence(part.music, since, last, bar), default=None)
        if best is not None and _played(best.music, since, last) > 0:
            begins = min(start for start, end, _ in _sounding(best.music) if end > since)
            since = max(since, bars.bar_start(begins))
            clef, above = _placed(own, best.music, since, last)
            cue = CueNotes(start=since, end=last, quote=best.quote, name=best.title, clef=clef, above=above)
            found.append(cue)
    return tuple(found)


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


def _silences(music: Music) -> Iterator[tuple[Fraction, Fraction]]:
    at = Fraction(0)
    for start, end, _ in sorted(_sounding(music), key=lambda one: one[0]):
        if start > at:
            yield at, start
        at = max(at, end)
    if at < music.beats:
        yield at, music.beats


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
