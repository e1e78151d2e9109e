"""What is written in each measure: the notes, rests and grace notes of every voice, in order."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from gesturesmith.score.music import Event, Music, Part, Voice
from gesturesmith.score.rhythm import GRACE_VALUE, GRACES_VALUE, Leaf, Tuplet
from gesturesmith.values import frozen

type WrittenKind = Literal["note", "rest", "bar-rest", "space", "held", "grace", "after", "stop"]

_FEATHER_VALUE = Fraction(1, 8)  # a thirty-second
_BEAMED_BELOW = Fraction(1)


@frozen(kw_only=True)
class Written:
    """One written note, rest or grace note.

    kind      a `space` takes time and shows nothing; `held` is the same for a note that sounds on after a bar line.
              A `grace` takes no time, nor one `after` its note, nor the head where a line stops
    at, beats its time from the start of the music and its length, in quarters
    value     its note value in quarters, dots included; None for a stemless head
    first, last   whether the marks at the beginning and at the end of its event belong here
    tied, continued   a tie leaves it; a tie leads to it
    sounds_on   it is held after a bar line, without a tie on the page
    tuplet    the tuplet it is in; `opens`, `closes`: whether that begins or ends with it
    beams     what each of its beams does here, the first the one that joins whole groups
    fan       how a feathered beam that begins here opens or closes
    stem      whether it has a stem
    slashed   a grace note with a slash
    """

    kind: WrittenKind
    event: Event
    at: Fraction
    beats: Fraction = Fraction(0)
    value: Fraction | None = None
    first: bool = False
    last: bool = False
    tied: bool = False
    continued: bool = False
    sounds_on: bool = False
    tuplet: Tuplet | None = None
    opens: bool = False
    closes: bool = False
    beams: tuple[str, ...] = ()
    fan: str = ""
    stem: bool = True
    slashed: bool = False

    @property
    def sounds(self) -> bool:
        return self.kind not in ("rest", "bar-rest", "space")

    @property
    def until(self) -> Fraction:
        return self.at + self.beats


def voices(music: Music, bounds: Sequence[Fraction]) -> tuple[tuple[Written, ...], ...]:
    """The played voice, and the sung one if there is one. `bounds`: when measures begin, and the end."""
    played = tuple(_voice(music.parts, [part.played.leaves for part in music.parts], bounds, sung=False))
    sung_parts = [part for part in music.parts if part.sung is not None]
    if not sung_parts:
        return (played,)
    sung = [part.sung.leaves for part in sung_parts if part.sung is not None]
    return played, tuple(_voice(sung_parts, sung, bounds, sung=True))


def joined_times(music: Music) -> tuple[tuple[Fraction, Fraction], ...]:
    """Stretches that no bar line may divide: leaves, tuplets and beams."""
    found = []
    for part in music.parts:
        for voice in part.voices:
            for item in voice.leaves:
                leaves = item.leaves if isinstance(item, Tuplet) else (item,)
                factor = item.factor if isinstance(item, Tuplet) else Fraction(1)
                found.append((leaves[0].at, leaves[-1].at + leaves[-1].value * factor))
    beam = None
    for leaf, _ in _flat([part.played.leaves for part in music.parts]):
        beam = leaf.at if leaf.beam == "start" else beam
        if leaf.beam == "end" and beam is not None:
            found.append((beam, leaf.at + leaf.value))
            beam = None
    return tuple(found)


def _flat(runs: Sequence[tuple[Leaf | Tuplet, ...]]) -> Iterator[tuple[Leaf, Tuplet | None]]:
    for run in runs:
        for item in run:
            if isinstance(item, Tuplet):
                for leaf in item.leaves:
                    yield leaf, item
            else:
                yield item, None


def _voice(
    parts: Sequence[Part], runs: list[tuple[Leaf | Tuplet, ...]], bounds: Sequence[Fraction], *, sung: bool
) -> list[Written]:
    events = {e.key: e for part in parts for e in (part.sung if sung and part.sung else part.played).events}
    flat = list(_flat(runs))
    stops = _stops(parts, flat, sung=sung)
    beams = _beams(flat, events, {e.key: part.fan for part in parts for e in part.played.events})
    made: list[Written] = []
    tied = -1
    for number, (leaf, tuplet) in enumerate(flat):
        event = events[leaf.key]
        if leaf.first:
            made += _graces(event.graces, leaf.at, slashed=True)
        for written in _written(leaf, tuplet, event, bounds, continued=leaf.key == tied):
            last = made[-1] if made else None
            goes_on = written.kind == "space" and not event.goes_on and written.at not in bounds
            if goes_on and last is not None and last.event is event:
                made[-1] = replace(
                    last,
                    beats=last.beats + written.beats,
                    last=written.last,
                    closes=last.closes or written.closes,
                )
            elif written.kind == "space" and event.head is not None and not event.goes_on and last is not None:
                made[-1] = replace(last, sounds_on=True)
                made.append(replace(written, kind="held"))
            elif written.kind == "note":
                ways, fan = beams.get(number, ((), ""))
                made.append(replace(written, beams=ways, fan=fan))
            else:
                made.append(written)
        tied = leaf.key if leaf.tied else -1
        if leaf.last:
            made += _graces(event.after, leaf.at + leaf.value * _factor(tuplet), slashed=False)
        if number in stops:
            stop = stops[number]
            made.append(Written(kind="stop", event=stop, at=stop.start, first=True, last=True, stem=False))
    return made


def _factor(tuplet: Tuplet | None) -> Fraction:
    return tuplet.factor if tuplet is not None else Fraction(1)


def _stops(parts: Sequence[Part], flat: list[tuple[Leaf, Tuplet | None]], *, sung: bool) -> dict[int, Event]:
    """The heads where lines stop, each by the number of the leaf after which it comes."""
    found: dict[int, Event] = {}
    owner: dict[int, Voice] = {}
    for part in parts:
        voice = part.sung if sung and part.sung is not None else part.played
        owner |= {event.key: voice for event in voice.events}
    last = {id(owner[leaf.key]): number for number, (leaf, _) in enumerate(flat)}
    for voice in owner.values():
        if voice.stop is not None:
            found[last[id(voice)]] = voice.stop
    return found


def _written(
    leaf: Leaf, tuplet: Tuplet | None, event: Event, bounds: Sequence[Fraction], *, continued: bool
) -> Iterator[Written]:
    """A leaf, measure by measure. What is not a note value has one head, and nothing in the measures after it."""
    end = leaf.at + leaf.value * _factor(tuplet)
    valued = tuplet is not None and any(one.kind not in ("point", "skip") for one in tuplet.leaves)
    for at, until in _by_measures(leaf.at, end, bounds):
        here = Written(
            kind="space",
            event=event,
            at=at,
            beats=until - at,
            first=leaf.first and at == leaf.at,
            last=leaf.last and until == end,
            tuplet=tuplet if valued else None,
            opens=valued and tuplet is not None and tuplet.leaves[0] is leaf,
            closes=valued and tuplet is not None and tuplet.leaves[-1] is leaf,
        )
        if event.goes_on or leaf.kind == "skip":
            yield here
        elif event.head is None or leaf.kind in ("rest", "bar-rest"):
            whole = leaf.kind == "bar-rest" and (at, until) == (at, _end(at, bounds))
            value = leaf.value if leaf.kind == "rest" else None
            yield replace(here, kind="bar-rest" if whole else "rest", value=value)
        elif at != leaf.at:
            yield here
        else:
            yield replace(
                here,
                kind="note",
                value=_value(leaf, event),
                stem=leaf.kind == "note" or event.feathered or event.value is not None,
                tied=leaf.tied,
                continued=continued,
            )


def _value(leaf: Leaf, event: Event) -> Fraction | None:
    if event.beamed:
        return _FEATHER_VALUE
    if event.value is not None:
        return event.value
    return leaf.value if leaf.kind == "note" else None


def _by_measures(at: Fraction, end: Fraction, bounds: Sequence[Fraction]) -> Iterator[tuple[Fraction, Fraction]]:
    inside = bounds[bisect_right(bounds, at) : bisect_left(bounds, end)]
    yield from pairwise((at, *inside, end))


def _end(at: Fraction, bounds: Sequence[Fraction]) -> Fraction:
    """When the measure of a time ends."""
    return bounds[min(bisect_right(bounds, at), len(bounds) - 1)]


def _graces(events: tuple[Event, ...], at: Fraction, *, slashed: bool) -> Iterator[Written]:
    several = len(events) > 1
    for number, event in enumerate(events):
        way = "begin" if number == 0 else "end" if number == len(events) - 1 else "continue"
        yield Written(
            kind="grace" if slashed else "after",
            event=event,
            at=at,
            value=GRACES_VALUE if several else GRACE_VALUE,
            first=True,
            last=True,
            beams=(way, way) if several else (),
            slashed=slashed and number == 0,
        )


# --- beams -----------------------------------------------------------------------------------------------------


def _beams(
    flat: list[tuple[Leaf, Tuplet | None]], events: dict[int, Event], fans: dict[int, str]
) -> dict[int, tuple[tuple[str, ...], str]]:
    """What the beams of each leaf do, by its number, and how a feathered one opens or closes."""
    found: dict[int, tuple[tuple[str, ...], str]] = {}
    group: list[tuple[int, int]] = []  # leaves with the number of their beams
    inside = False
    for number, (leaf, _) in enumerate(flat):
        event = events[leaf.key]
        inside = inside or leaf.beam == "start"
        value = _value(leaf, event)
        stemmed = leaf.kind == "note" or event.feathered
        if inside and stemmed and value is not None and value < _BEAMED_BELOW and leaf.kind in ("note", "point"):
            group.append((number, flags(value)))
        if leaf.beam == "end":
            inside = False
            if len(group) > 1:
                fan = fans.get(leaf.key, "") if event.beamed else ""
                for place, (one, ways) in enumerate(_ways(group)):
                    found[one] = ways, fan if not place else ""
            group = []
    return found


def _ways(group: list[tuple[int, int]]) -> Iterator[tuple[int, tuple[str, ...]]]:
    for place, (number, count) in enumerate(group):
        before = group[place - 1][1] if place else 0
        after = group[place + 1][1] if place + 1 < len(group) else 0
        ways = []
        for level in range(1, count + 1):
            if before >= level and after >= level:
                ways.append("continue")
            elif after >= level:
                ways.append("begin")
            elif before >= level:
                ways.append("end")
            else:
                ways.append("backward hook" if place else "forward hook")
        yield number, tuple(ways)


def flags(value: Fraction) -> int:
    """How many flags or beams a note value has."""
    count, length = 0, Fraction(1)
    while value < length:
        length /= 2
        count += 1
    return count
