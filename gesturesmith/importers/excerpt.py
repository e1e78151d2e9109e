"""Bars of a score as a gesture file, to go on working with."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby, pairwise

from gesturesmith import instruments
from gesturesmith.importers.notated import NotatedPart, NotatedScore, RepeatSigns, ScoreBar, ScoreSign, TempoMark
from gesturesmith.importers.phrases import Phrase, PlayerLine, lines
from gesturesmith.importers.times import ScoreTimes, ScoreTurn, timetable
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import format_text
from gesturesmith.lang.keys import EVERY_KEY
from gesturesmith.lang.tokens import quoted
from gesturesmith.lang.words import RESERVED, SIGNS, TEMPO_BPM
from gesturesmith.model.builder import NewFingering, NewGesture, NewPoint
from gesturesmith.model.context import MAX_BEATS
from gesturesmith.source import Source, clean, folded
from gesturesmith.units import Interval, Spelling
from gesturesmith.values import frozen

_COLUMNS = 100
_MOST_BEATS = 64  # of a meter
_MOST_SHARPS = 7
_BY_FIFTHS = "FCGDAEB"
_MOST_TEXT = 200  # characters of a title


@frozen(kw_only=True)
class ScoreExcerpt:
    """A gesture file, and what had to be left out of it, in words."""

    text: str
    left_out: tuple[str, ...] = ()


@frozen(kw_only=True)
class _SteadyBars:
    """A stretch with one meter, tempo and key, or one in which the tempo changes all the time.

    first    the bar in which it begins; `end`: the one after its last
    sharps   of the sounding key, negative for flats; None if the parts do not agree; `minor`: of a minor key
    pickup   the length of an incomplete first bar, else 0
    tempo    at its beginning, with the words there; `turn`: how it goes on, and `to` which tempo
    """

    first: int
    end: int
    starts: Fraction
    ends: Fraction
    meter: tuple[int, int] | None
    tempo: Fraction
    sharps: int | None
    minor: bool = False
    pickup: Fraction = Fraction(0)
    words: str = ""
    turn: ScoreTurn | None = None
    marks: tuple[str, ...] = ()

    @property
    def to(self) -> Fraction:
        """The tempo at its end."""
        return self.turn.to if self.turn is not None else self.tempo

    @property
    def key(self) -> tuple[int | None, bool]:
        return self.sharps, self.minor

    def goes_on(self, before: _SteadyBars) -> bool:
        """Whether nothing is new in it."""
        same = (before.meter, before.to, before.key) == (self.meter, self.tempo, self.key)
        return same and self.turn is None and not self.words and not self.marks


@frozen
class _Named:
    """A player's line with the name of its part in the file, and its phrases, each with its name.

    says   whether it is the line that changes of tempo, meter and key stand in
    """

    name: str
    title: str
    line: PlayerLine
    phrases: tuple[tuple[str, Phrase], ...]
    says: bool = False

    def within(self, starts: Fraction, ends: Fraction) -> tuple[tuple[str, Phrase], ...]:
        """Those that begin in a stretch."""
        return tuple(row for row in self.phrases if starts <= row[1].at < ends)


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
    wanted = {folded(one) for one in only}
    parts = [part for part in plain.parts if not wanted or folded(part.name) in wanted]
    every = {part.id: lines(plain, part, times) for part in parts}
    untold: list[str] = []
    says, stretches = _told(plain, parts, times, bars, every, untold)
    starts, ends = stretches[0].starts, stretches[-1].ends
    groups = [list(rows) for _, rows in groupby(stretches, key=lambda row: row.meter is None)]
    outer = [starts, ends, *(rows[0].starts for rows in groups)]
    every_cut = tuple(dict.fromkeys((*outer, *(row.starts for row in stretches))))
    found = [
        (line, part.id == says)
        for part in parts
        for line in lines(plain, part, times, every_cut if part.id == says else tuple(dict.fromkeys(outer)))
        if any(starts <= p.at < ends for p in line.phrases)
    ]
    if not found:
        return None
    named = _named(plain, found, starts, ends)
    text = "\n".join(_file(plain, named, groups, bars, name, times))
    left_out = (*_left_out(plain, named, every_cut), *dict.fromkeys(untold))
    return ScoreExcerpt(text=format_text(Source(name, f"{text}\n")), left_out=left_out)


def _told(
    score: NotatedScore,
    parts: Sequence[NotatedPart],
    times: ScoreTimes,
    bars: range,
    every: Mapping[str, tuple[PlayerLine, ...]],
    untold: list[str],
) -> tuple[str, list[_SteadyBars]]:
    """The part whose line has the changes of tempo, meter and key between its notes, and the stretches between
    them: of all parts that play there, the one in which the fewest are inside a note. What cannot stand in it goes
    to `untold`."""
    first, last = times.bars[bars[0]].at, times.bars[bars[-1]].at + score.bars[bars[-1]].lasts
    wanted = _moments(score, times, bars)
    sounding = {id: [note for line in of_part for note in _sounding(line)] for id, of_part in every.items()}
    there = [id for id, notes in sounding.items() if any(first <= at < last for at, _ in notes)]
    if not there:
        return "", _stretches(score, parts, times, bars, wanted)

    def around(id: str, at: Fraction) -> Fraction | None:
        """The end of the note that a time is inside of."""
        return next((end for start, end in sounding[id] if start < at < end), None)

    says = min(there, key=lambda id: sum(around(id, at) is not None for at in wanted))
    reached = {at for line in every[says] for phrase in line.phrases for at in _reached(phrase)}
    moved: dict[Fraction, list[TempoMark | ScoreSign]] = {}
    for at, marks in wanted.items():
        end = around(says, at)
        bar = score.bars[max(n for n in bars if times.bars[n].at <= at)].number
        for mark in marks:
            if isinstance(mark, ScoreSign):
                what = f"rehearsal mark {_shown(mark.text)}" if mark.text else "double bar line"
                if end is not None or at in reached:
                    untold.append(f"bar {bar}: the {what}, which is not between two attacks")
                    continue
            elif end is not None:
                untold.append(f"bar {bar}: the tempo changes inside a note; here it does after it")
                moved.setdefault(min(end, last), []).append(mark)
                continue
            moved.setdefault(at, []).append(mark)
    return says, _stretches(score, parts, times, bars, {at: moved[at] for at in sorted(moved) if at < last})


def _sounding(line: PlayerLine) -> Iterator[tuple[Fraction, Fraction]]:
    """When each note of a line begins and ends."""
    for phrase in line.phrases:
        times = [point.at for point in phrase.gesture.points if point.at is not None]
        yield from ((phrase.at + at, phrase.at + end) for at, end in pairwise((*times, phrase.lasts)))


def _reached(phrase: Phrase) -> Iterator[Fraction]:
    """The times to which a slur or a line leads in a phrase."""
    for point in phrase.gesture.points:
        if point.line != "none" and point.at is not None:
            yield phrase.at + point.at


def _moments(score: NotatedScore, times: ScoreTimes, bars: range) -> dict[Fraction, list[TempoMark | ScoreSign]]:
    """Marks in some bars by their time in the played score."""
    found: dict[Fraction, list[TempoMark | ScoreSign]] = {}
    for index in bars:
        marks: tuple[TempoMark | ScoreSign, ...] = (*score.bars[index].tempos, *score.bars[index].marks)
        for mark in marks:
            found.setdefault(times.bars[index].at + mark.at, []).append(mark)
    return found


def _stretches(
    score: NotatedScore,
    parts: Sequence[NotatedPart],
    times: ScoreTimes,
    bars: range,
    marks: Mapping[Fraction, Sequence[TempoMark | ScoreSign]],
) -> list[_SteadyBars]:
    found: list[_SteadyBars] = []
    tempo = times.tempo(times.bars[bars[0]].at)
    going = next((t for t in times.turns if t.start <= times.bars[bars[0]].at < t.end), None)
    if going is not None:
        tempo = going.tempo_at(times.bars[bars[0]].at)
    end_of_all = times.bars[bars[-1]].at + score.bars[bars[-1]].lasts
    for index in bars:
        bar, starts = score.bars[index], times.bars[index].at
        sounding = {part.bars[index].sharps + _fifths(part.bars[index].sounding) for part in parts}
        minor = {part.bars[index].minor for part in parts} == {True}
        if not minor and not any(part.bars[index].sharps for part in parts):
            sounding = set()  # no key signature is not C major
        after = score.bars[index + 1] if index == bars[0] and index + 1 in bars else None
        whole = _meter_of(after) if after is not None else None
        pickup = bar.meter is not None and after is not None and whole == bar.meter and bar.lasts < after.lasts
        last = found[-1] if found else None
        # A passage may end before its last bar does: that is no new meter, before which ties would be cut.
        early = (
            bar.meter is not None
            and last is not None
            and (index, bar.meter) == (bars[-1], last.meter)
            and bar.lasts < Fraction(4 * bar.meter[0], bar.meter[1])
        )
        inside = [at for at in marks if starts < at < starts + bar.lasts]
        for at, until in zip([starts, *inside], [*inside, starts + bar.lasts], strict=True):
            here = marks.get(at, ())
            new = next((m for m in here if isinstance(m, TempoMark) and m.quarters is not None), None)
            kinds = {m.turn for m in here if isinstance(m, TempoMark)}
            turn = next((t for t in times.turns if t.kind in kinds and t.start <= at < t.end), None)
            if going is not None and at == times.bars[bars[0]].at:
                turn = going
            tempo = new.quarters if new is not None and new.quarters is not None else tempo
            own = _on_the_way(turn, at, tempo, end_of_all) if turn is not None else None
            one = _SteadyBars(
                first=index,
                end=index + 1,
                starts=at,
                ends=until,
                meter=whole if pickup else bar.meter if early else _meter_of(bar),
                tempo=_allowed(tempo),
                sharps=min(sounding) if len(sounding) == 1 else None,
                minor=minor and len(sounding) == 1,
                pickup=bar.lasts if pickup and at == starts else Fraction(0),
                words=_shown(new.words) if new is not None else "",
                turn=own,
                marks=tuple(m.text for m in here if isinstance(m, ScoreSign)),
            )
            tempo = own.to if own is not None else tempo
            if found and one.goes_on(found[-1]):
                found[-1] = replace(found[-1], end=one.end, ends=one.ends)
            else:
                found.append(one)
    return found


def _on_the_way(turn: ScoreTurn, at: Fraction, tempo: Fraction, end: Fraction) -> ScoreTurn:
    """A turn from a time on, and no further than these bars go; tempos are whole numbers where it is cut."""
    until = min(turn.end, end)
    to = turn.to if until == turn.end else Fraction(round(turn.tempo_at(until)))
    return replace(turn, start=at, end=until, tempo=_allowed(tempo), to=_allowed(to))


def _allowed(tempo: Fraction) -> Fraction:
    """A tempo that a file may have, in tenths."""
    near = Fraction(round(tempo * 10), 10) if tempo.denominator > 10 else tempo
    return max(Fraction(TEMPO_BPM[0]), min(Fraction(TEMPO_BPM[1]), near))


def _meter_of(bar: ScoreBar) -> tuple[int, int] | None:
    """The meter of a bar as a file may have it: that of its length if it is shorter or longer than it should be,
    None for free time."""
    if bar.meter is None:
        return None
    count, note = bar.meter
    if Fraction(4 * count, note) != bar.lasts:
        length = bar.lasts / 4
        count, note = length.numerator, length.denominator
        if note < 4:
            count, note = count * (4 // note), 4
    if not (0 < count <= _MOST_BEATS and note <= _MOST_BEATS) or note & (note - 1):
        return None
    return count, note


def _fifths(interval: Interval) -> int:
    """How many sharps a key gets by an interval, negative for flats."""
    name = Spelling("C", Fraction(0), 4).transposed(interval)
    return _BY_FIFTHS.index(name.letter) - 1 + 7 * int(name.alter)


def _key(sharps: int | None, minor: bool) -> str:
    """A key by its sharps, as files have it; without any, `none`."""
    if sharps is None:
        return "none"
    tonic = sharps + (4 if minor else 1)
    sign = {-1: "b", 0: "", 1: "#"}[tonic // 7]
    return f"{_BY_FIFTHS[tonic % 7]}{sign} {'minor' if minor else 'major'}"


def _named(
    score: NotatedScore, found: list[tuple[PlayerLine, bool]], starts: Fraction, ends: Fraction
) -> list[_Named]:
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
    first = next((line for line, says in found if says), None)
    rows = []
    for line, _ in found:
        title = line.part.name + (f", player {line.player + 1}" if line.players > 1 else "")
        own = name(line.part.name, str(line.player + 1) if line.players > 1 else "") if several else ""
        phrases = tuple(
            (name(own, "bar", score.bars[phrase.places[0].bar].number), phrase)
            for phrase in line.phrases
            if starts <= phrase.at < ends
        )
        rows.append(_Named(own, title, line, phrases, line is first))
    return rows


def _file(
    score: NotatedScore,
    named: list[_Named],
    groups: list[list[_SteadyBars]],
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
    stretches = [row for rows in groups for row in rows]
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
        for title, phrase in one.phrases:
            yield f"gesture {title}"
            yield from (f"  {line}" for line in _gesture(instruments.get(one.line.part.key), phrase.gesture))
    for number, rows in enumerate(groups, start=1):
        yield from _passage(score, named, rows, number, stretches[0])


def _passage(
    score: NotatedScore, named: list[_Named], rows: list[_SteadyBars], number: int, first: _SteadyBars
) -> Iterator[str]:
    """Bars with, or without, a meter; a new tempo, meter or key is an entry between what is played."""
    begin, end = rows[0], rows[-1]
    from_bar, to_bar = score.bars[begin.first].number, score.bars[end.end - 1].number
    title = f"Bar {from_bar}" if end.end == begin.first + 1 else f"Bars {from_bar} to {to_bar}"
    yield f"passage bars-{number} {_text(title)}"
    if begin.words:
        yield f"  tempo: {_text(begin.words)} {_number(begin.tempo)}"
    elif begin.tempo != first.tempo:
        yield f"  tempo: {_number(begin.tempo)}"
    yield f"  meter: {_meter(begin.meter)}"
    own = instruments.get(named[0].line.part.key) if len(named) == 1 else None
    if begin.meter is not None and _is_number(from_bar):
        yield f"  bar: {max(1, int(from_bar))}"
    if begin.pickup:
        yield f"  pickup: {_number(begin.pickup)} beats"
    if _sharps(begin, own) is not None:
        yield f"  key: {_key(_sharps(begin, own), begin.minor)}"
    for one in named:
        items: list[str] = []
        for n, stretch in enumerate(rows if one.says else [replace(begin, ends=end.ends)]):
            if one.says:
                items += _changes(rows[n - 1] if n else None, stretch, own)
            items += _items(one.within(stretch.starts, stretch.ends), stretch)
        key = one.name if len(named) > 1 else "play"
        yield from (f"  {line}" for line in _folded(f"{key}: {', '.join(items)}"))


def _is_number(bar: str) -> bool:
    """Whether the bars of a file may begin with it; those with a pickup begin after 0."""
    return bar.isdecimal() and len(bar) < 5


def _sharps(stretch: _SteadyBars, own: Instrument | None) -> int | None:
    """The sharps of the key: sounding, or in the part of one instrument; None if there is no one key."""
    if stretch.sharps is None:
        return None
    sharps = stretch.sharps - (_fifths(own.sounding) if own is not None else 0)
    return sharps if abs(sharps) <= _MOST_SHARPS else None


def _changes(before: _SteadyBars | None, now: _SteadyBars, own: Instrument | None) -> Iterator[str]:
    """The entries at the beginning of a stretch; the first one's tempo, meter and key are those of the passage."""
    if before is not None:
        if now.tempo != before.to or now.words:
            yield f"tempo {_text(now.words) + ' ' if now.words else ''}{_number(now.tempo)}"
        if now.meter != before.meter:
            yield f"meter {_meter(now.meter)}"
        yield from ("double bar" for text in now.marks if not text)
        if (_sharps(now, own), now.minor) != (_sharps(before, own), before.minor):
            yield f"key {_key(_sharps(now, own), now.minor)}"
    yield from (f"mark {_text(text)}" for text in now.marks if text)
    if now.turn is not None:
        yield f"{now.turn.kind} to {_number(now.turn.to)} over {_number(now.turn.end - now.turn.start)}"


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
    if gesture.fingering:
        yield from _folded(f"fingering: {', '.join(_finger(f) for f in gesture.fingering)}")


def _finger(finger: NewFingering) -> str:
    return " ".join(filter(None, (finger.shade, finger.side, finger.valves)))


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


def _left_out(score: NotatedScore, named: list[_Named], cuts: Sequence[Fraction]) -> Iterator[str]:
    """What the file does not have of what the lines have there."""
    for one in named:
        phrases = [phrase for _, phrase in one.phrases]
        cut = [p for p in phrases if p.at in cuts and p.gesture.points and p.continues]
        rows = [("ties, slurs or lines into these bars, or across a new tempo, meter or key", cut)]
        rows += [
            (what, [p for p in phrases if p.untold == what]) for what in sorted({p.untold for p in phrases} - {""})
        ]
        for what, there in rows:
            if there:
                bars = dict.fromkeys(score.bars[p.places[0].bar].number for p in there)
                yield f"{one.title}: {what} (bar {', '.join(bars)})"


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


def _shown(text: str) -> str:
    return " ".join(clean(text).split())[:_MOST_TEXT]


def _text(text: str) -> str:
    return quoted(_shown(text))
