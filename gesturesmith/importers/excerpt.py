"""Bars of a score as a gesture file, to go on working with."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from gesturesmith import instruments
from gesturesmith.importers.notated import NotatedScore, RepeatSigns
from gesturesmith.importers.phrases import Phrase, PlayerLine, lines
from gesturesmith.importers.times import ScoreTimes, timetable
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import format_text
from gesturesmith.lang.keys import EVERY_KEY
from gesturesmith.lang.tokens import quoted
from gesturesmith.lang.words import RESERVED, SIGNS, TEMPO_BPM
from gesturesmith.model.builder import NewGesture, NewPoint
from gesturesmith.model.context import MAX_BEATS
from gesturesmith.source import Source, clean, folded
from gesturesmith.units import Spelling
from gesturesmith.values import frozen

_COLUMNS = 100
_MOST_BEATS = 64  # of a meter
_MOST_TEXT = 200  # characters of a title


@frozen(kw_only=True)
class ScoreExcerpt:
    """A gesture file, and what had to be left out of it, in words."""

    text: str
    left_out: tuple[str, ...] = ()


@frozen(kw_only=True)
class _SteadyBars:
    """Bars, from `first` up to but not including `end`, with one meter and tempo."""

    first: int
    end: int
    starts: Fraction
    ends: Fraction
    meter: tuple[int, int] | None
    tempo: Fraction


@frozen
class _Named:
    """A player's line with the name of its part in the file, and its phrases by stretch, each with its name."""

    name: str
    title: str
    line: PlayerLine
    phrases: tuple[tuple[tuple[str, Phrase], ...], ...]


def bars_named(score: NotatedScore, first: str, last: str) -> range | None:
    """The bars from one printed number to another, both included; None if there are none."""
    numbers = [bar.number for bar in score.bars]
    if first not in numbers:
        return None
    start = numbers.index(first)
    if last not in numbers[start:]:
        return None
    return range(start, start + numbers[start:].index(last) + 1)


def excerpt(
    score: NotatedScore, bars: range, *, name: str, only: Sequence[str] = (), tempo: Fraction | None = None
) -> ScoreExcerpt | None:
    """The gesture file of some bars, as they stand, without their repeats; None if no part of ours plays in them.

    name   of the file, for its first line
    only   the names of the parts to take; () for all
    """
    plain = replace(score, bars=tuple(replace(bar, signs=RepeatSigns()) for bar in score.bars))
    times = timetable(plain, tempo)
    stretches = _stretches(plain, times, bars)
    cuts = tuple(dict.fromkeys(t for s in stretches for t in (s.starts, s.ends)))
    wanted = {folded(one) for one in only}
    found = [
        line
        for part in plain.parts
        if not wanted or folded(part.name) in wanted
        for line in lines(plain, part, times, cuts)
        if any(stretches[0].starts <= p.at < stretches[-1].ends for p in line.phrases)
    ]
    if not found:
        return None
    named = _named(plain, found, stretches)
    text = "\n".join(_file(plain, named, stretches, bars, name, times))
    return ScoreExcerpt(text=format_text(Source(name, f"{text}\n")), left_out=tuple(_left_out(plain, found, cuts)))


def _stretches(score: NotatedScore, times: ScoreTimes, bars: range) -> list[_SteadyBars]:
    found: list[_SteadyBars] = []
    for index in bars:
        bar, starts = score.bars[index], times.bars[index].at
        meter = _known_meter(bar.meter)
        marks = [mark.quarters for mark in bar.tempos if mark.quarters is not None]
        tempo = max(Fraction(TEMPO_BPM[0]), min(Fraction(TEMPO_BPM[1]), marks[0] if marks else times.tempo(starts)))
        if found and (found[-1].meter, found[-1].tempo) == (meter, tempo):
            found[-1] = replace(found[-1], end=index + 1, ends=starts + bar.lasts)
        else:
            ends = starts + bar.lasts
            found.append(
                _SteadyBars(first=index, end=index + 1, starts=starts, ends=ends, meter=meter, tempo=tempo)
            )
    return found


def _named(score: NotatedScore, found: list[PlayerLine], stretches: list[_SteadyBars]) -> list[_Named]:
    """The lines with names for their parts and phrases that the file may use, each once."""
    taken: set[str] = set()

    def name(*words: str) -> str:
        plain = "-".join(filter(None, re.split(r"[^a-z0-9]+", " ".join(words).lower())))
        if not plain[:1].isalpha() or plain in (*RESERVED, *EVERY_KEY) or len(plain) < 3:
            plain = f"part-{plain}".rstrip("-") if plain else "part-x"
        one, count = plain, 2
        while one in taken:
            one, count = f"{plain}-{count}", count + 1
        taken.add(one)
        return one

    several = len(found) > 1
    rows = []
    for line in found:
        title = line.part.name + (f", player {line.player + 1}" if line.players > 1 else "")
        own = name(line.part.name, str(line.player + 1) if line.players > 1 else "") if several else ""
        phrases = tuple(
            tuple(
                (name(own, "bar", score.bars[phrase.places[0].bar].number), phrase)
                for phrase in line.phrases
                if stretch.starts <= phrase.at < stretch.ends
            )
            for stretch in stretches
        )
        rows.append(_Named(own, title, line, phrases))
    return rows


def _file(
    score: NotatedScore,
    named: list[_Named],
    stretches: list[_SteadyBars],
    bars: range,
    name: str,
    times: ScoreTimes,
) -> Iterator[str]:
    first, last = score.bars[bars[0]].number, score.bars[bars[-1]].number
    what = f"bar {first}" if len(bars) == 1 else f"bars {first} to {last}"
    yield f"# {_shown(what)} of {_shown(name)}"
    if times.assumed and not any(mark.quarters for bar in score.bars[: bars[-1] + 1] for mark in bar.tempos):
        yield "# the score names no tempo here: this one is assumed"
    if score.title:
        yield f"title: {_text(score.title)}"
    if score.composer:
        yield f"composer: {_text(score.composer)}"
    yield "pitches: written"
    yield f"tempo: {_number(stretches[0].tempo)}"
    if any(stretch.meter is not None for stretch in stretches):
        yield f"meter: {_meter(next(s.meter for s in stretches if s.meter is not None))}"
    several = len(named) > 1
    for one in named:
        if several:
            yield f"part {one.name} {_text(one.title)}"
            yield f"  instrument: {one.line.part.key}"
        else:
            yield f"instrument: {one.line.part.key}"
            yield f"part: {_text(one.title)}"
    for one in named:
        for row in one.phrases:
            for title, phrase in row:
                yield f"gesture {title}"
                yield from (f"  {line}" for line in _gesture(instruments.get(one.line.part.key), phrase.gesture))
    for number, stretch in enumerate(stretches):
        yield from _passage(score, named, stretch, number, stretches[0])


def _passage(
    score: NotatedScore, named: list[_Named], stretch: _SteadyBars, number: int, first: _SteadyBars
) -> Iterator[str]:
    from_bar, to_bar = score.bars[stretch.first].number, score.bars[stretch.end - 1].number
    title = f"Bar {from_bar}" if stretch.end == stretch.first + 1 else f"Bars {from_bar} to {to_bar}"
    yield f"passage bars-{number + 1} {_text(title)}"
    if stretch.tempo != first.tempo:
        yield f"  tempo: {_number(stretch.tempo)}"
    yield f"  meter: {_meter(stretch.meter)}"
    if stretch.meter is not None and from_bar.isdecimal() and 0 < int(from_bar) < 10_000:
        yield f"  bar: {int(from_bar)}"
    for one in named:
        key = one.name if len(named) > 1 else "play"
        yield from (f"  {line}" for line in _folded(f"{key}: {', '.join(_items(one.phrases[number], stretch))}"))


def _items(row: Sequence[tuple[str, Phrase]], stretch: _SteadyBars) -> Iterator[str]:
    now = stretch.starts
    for name, phrase in row:
        yield from _rests(phrase.at - now)
        yield name
        now = phrase.at + phrase.lasts
    yield from _rests(stretch.ends - now)


def _rests(beats: Fraction) -> Iterator[str]:
    while beats > 0:
        yield f"rest {_number(min(beats, Fraction(MAX_BEATS)))}"
        beats -= MAX_BEATS


def _gesture(instrument: Instrument, gesture: NewGesture) -> Iterator[str]:
    """The lines of a gesture, in the written pitches of its instrument."""
    if gesture.techniques:
        yield f"technique: {' + '.join(gesture.techniques)}"
    points = gesture.points
    ends = (*(p.at for p in points[1:]), gesture.lasts)
    # Where a line ends on a note with grace notes after it, only times say that the note is held.
    timed = bool(points[-1].after) and points[-1].line not in ("none", "slur")
    text = ""
    for n, (point, end) in enumerate(zip(points, ends, strict=True)):
        line = f" {SIGNS[point.line]} " if point.line != "none" else ", "
        stops = point.at is None
        lasts = None if stops or end is None or point.at is None else end - point.at
        if lasts is None and not stops:  # the point before a line's end
            lasts = (gesture.lasts or Fraction(0)) - (point.at or Fraction(0))
        graces = "".join(_grace(instrument, gesture, g) + _sign(g) for g in point.graces)
        when = f"@{_number(point.at)}" if timed and point.at else f" for {_number(lasts)}" if lasts else ""
        text += f"{line if n else ''}{graces}{_point(instrument, gesture, point, '' if timed and not n else when)}"
        text += "".join(f"{_sign(g)}{_grace(instrument, gesture, g)}" for g in point.after)
    yield from _folded(f"contour: {text}")
    if timed:
        yield f"lasts: {_number(gesture.lasts or Fraction(0))} beats"
    if gesture.dynamics:
        words = []
        for level in gesture.dynamics:
            at = f"@{_number(level.at)}" if level.at else ""
            words += [f"{level.level}{at}", level.join]
        yield f"dynamics: {' '.join(filter(None, words))}"
    if gesture.mute is not None:
        yield f"mute: {gesture.mute}"
    if gesture.trill:
        yield f"trill: {gesture.trill}"


def _point(instrument: Instrument, gesture: NewGesture, point: NewPoint, when: str) -> str:
    words = [f"{_height(instrument, gesture, point)}{when}"]
    if point.turns_to:
        words.append(f"as {' + '.join(point.turns_to.split('+'))}")
    words += [f"without {key}" for key in point.ends]
    words += point.marks
    return " ".join(words)


def _grace(instrument: Instrument, gesture: NewGesture, grace: NewPoint) -> str:
    return " ".join((_height(instrument, gesture, grace), "grace", *grace.marks))


def _sign(grace: NewPoint) -> str:
    """The line on the side of a grace note's own note."""
    return f" {SIGNS[grace.line]} " if grace.line != "none" else ", "


def _height(instrument: Instrument, gesture: NewGesture, point: NewPoint) -> str:
    if point.pitch is None:
        return "r"
    if not isinstance(point.pitch, Spelling):
        return str(point.pitch)
    written = point.pitch
    if gesture.instrument.sounding.cents != instrument.sounding.cents:
        written = instrument.written(gesture.instrument.heard(written))
    return f"{'x' if point.about else ''}{written.name}"


def _left_out(score: NotatedScore, found: list[PlayerLine], cuts: Sequence[Fraction]) -> Iterator[str]:
    """What the file does not have of what the score has there."""
    for line in found:
        cut = sum(1 for p in line.phrases if p.at in cuts and p.gesture.points and p.continues)
        if cut:
            where = "into these bars or across a change of tempo or meter"
            yield f"{line.part.name}: ties or slurs that lead {where} ({cut})"


def _number(value: Fraction) -> str:
    """As musicians write it: `2`, `3/2`."""
    return str(value)


def _folded(text: str) -> Iterator[str]:
    """A value on several lines, each after a comma and those after the first deeper."""
    line = ""
    for item in re.split(r"(?<=,) ", text):
        if line.strip() and len(line) + len(item) > _COLUMNS:
            yield line
            line = f"  {item}"
        else:
            line = f"{line} {item}" if line else item
    yield line


def _meter(meter: tuple[int, int] | None) -> str:
    return f"{meter[0]}/{meter[1]}" if meter is not None else "free"


def _known_meter(meter: tuple[int, int] | None) -> tuple[int, int] | None:
    """A meter that a file may have; any other is free time."""
    if meter is None or meter[0] > _MOST_BEATS or meter[1] > _MOST_BEATS or meter[1] & (meter[1] - 1):
        return None
    return meter


def _shown(text: str) -> str:
    return " ".join(clean(text).split())[:_MOST_TEXT]


def _text(text: str) -> str:
    return quoted(_shown(text))
