"""From beats to seconds: the tempo, and fermatas, during which time stops."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import accumulate, pairwise

from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Passage, PassageItem
from gesturesmith.model.tempo import FERMATA, TempoMap
from gesturesmith.tones.types import Fermata
from gesturesmith.values import frozen

_STEPS = 8  # steady tempos in a beat of an accelerando or ritardando: within a hair of the curve
_END, _START = 0, 1  # held: the end of a slot; the pitch from which a line is about to leave


@frozen
class Pause:
    """A fermata: its time in beats, which part of the note is held, for how many seconds, and from when to when the
    note lasts."""

    beats: Fraction
    what: int
    seconds: float
    slot: tuple[Fraction, Fraction]


class Clock:
    """The times of beats, in seconds from the beginning of the music, with repeats written out.

    order   when each item is played, in beats, and where it stands in the passage: the tempo is that of its place
    """

    def __init__(
        self, tempo: TempoMap, held: Iterable[Pause] = (), order: Sequence[tuple[Fraction, Fraction]] = ()
    ) -> None:
        self._tempo = tempo
        self._order = [] if tempo.steady else [played for played, _ in order]
        self._stands = [at for _, at in order]
        self._begins = [0.0]
        for (before, at), (after, _) in pairwise(order if self._order else ()):
            self._begins.append(self._begins[-1] + tempo.between(at, at + after - before))
        self._held = sorted(held, key=lambda h: (h.beats, h.what))
        self._places = [(h.beats, h.what) for h in self._held]
        self._passed = [0.0, *accumulate(h.seconds for h in self._held)]

    def reach(self, beats: Fraction) -> float:
        """When a time is first reached, before any fermata on it."""
        return self._seconds(beats, _END)

    def arrive(self, beats: Fraction) -> float:
        """When a time comes: after a fermata of the note that ends there."""
        return self._seconds(beats, _START)

    def leave(self, beats: Fraction) -> float:
        """When a line leaves a time: after a fermata on the pitch it starts from."""
        return self._seconds(beats, _START + 1)

    def rows(self, end: Fraction) -> tuple[tuple[Fraction, float], ...]:
        """Beats and their seconds from the beginning to the end, with a steady tempo from row to row that includes
        the fermatas."""
        places = {Fraction(0), end, *(beats for pause in self._held for beats in pause.slot), *self._order}
        steps = tuple(_steps(self._tempo)) if self._order else ()
        for i, begins in enumerate(self._order):
            until = self._order[i + 1] if i + 1 < len(self._order) else end
            later = (begins + step - self._stands[i] for step in steps)
            places.update(at for at in later if begins < at < until)
        return tuple((beats, self.arrive(beats)) for beats in sorted(places) if beats <= end)

    @property
    def fermatas(self) -> tuple[Fermata, ...]:
        return tuple(Fermata(beats=h.beats, seconds=h.seconds) for h in self._held)

    def _seconds(self, beats: Fraction, what: int) -> float:
        held = self._passed[bisect_left(self._places, (beats, what))]
        if not self._order:
            return self._tempo.seconds(beats) + held
        i = max(0, bisect_right(self._order, beats) - 1)
        at = self._stands[i]
        return self._begins[i] + self._tempo.between(at, at + beats - self._order[i]) + held


def _steps(tempo: TempoMap) -> Iterable[Fraction]:
    """Where a tempo changes, and while it does so little by little the eighths of its beats."""
    for stretch in tempo.stretches:
        yield stretch.at
        if stretch.changes and stretch.until is not None:
            count = int((stretch.until - stretch.at) * _STEPS)
            yield from (stretch.at + Fraction(n, _STEPS) for n in range(1, count + 1))


def pauses(gesture: Gesture, offset: Fraction) -> Iterable[Pause]:
    """The fermatas of a gesture that begins `offset` beats into the music; if the played and the sung line have one
    at the same time, the longer."""
    found: dict[tuple[Fraction, int], Pause] = {}
    lines = [(gesture.points, gesture.segments)]
    if gesture.sing is not None:
        lines.append((gesture.sing.points, gesture.sing.segments))
    for points, segments in lines:
        for index, point in enumerate(points):
            if "fermata" in point.marks:
                leaves = index < len(segments) and segments[index].slides
                place = (offset + point.at, _START) if leaves else (offset + point.until, _END)
                slot = gesture.seconds_between(point.at, point.until) or 60 / float(gesture.tempo)
                until = points[index + 1].at if leaves else point.until
                pause = Pause(*place, slot * FERMATA.value, (offset + point.at, offset + until))
                if place not in found or found[place].seconds < pause.seconds:
                    found[place] = pause
    return list(found.values())


def rest_pause(passage: Passage, item: PassageItem, offset: Fraction) -> Iterable[Pause]:
    """The fermata of a rest that begins `offset` beats into the music."""
    if not item.fermata:
        return ()
    more = passage.silence_s(item) - passage.tempo_map.between(item.at, item.at + item.beats)
    return (Pause(offset + item.beats, _END, more, (offset, offset + item.beats)),)
