"""A gesture against what its instrument can do: written pitches over time, behind the line what lip, hand, slide or
tube reach, and how it sounds. One look says where it leaves the possible.

Labels stand in the margins, where no line goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from gesturesmith import techniques
from gesturesmith.diagnostics import Finding
from gesturesmith.pictures import svg
from gesturesmith.pictures.plot import HEIGHT, LEFT, TOP, WIDTH, Plot, around
from gesturesmith.pictures.reach import Ladder, ReachBand, bands, ladder, leaves, rungs
from gesturesmith.pictures.svg import (
    CARE,
    FAINT,
    HEARD,
    INK,
    REACH,
    REFUSED,
    SOFT,
    Point,
    box,
    element,
    path,
    words,
)
from gesturesmith.pictures.told import severity_colour, shortened, told, verdict_colour
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.reading import written_name
from gesturesmith.techniques.base import Technique
from gesturesmith.tones import Performance, perform
from gesturesmith.tones.types import at

_NUMBERS = 20.0  # right of the plot: for the numbers of harmonics
_GAP = 98.0  # right of the plot, and of those numbers: for where ranges end
_SIDE = 190.0  # beside it: the tubes
_RIGHT, _BOTTOM = 14.0, 34.0
_LINE = 15.0  # from one line of text to the next
_COLUMNS = 84  # characters of a line of text below the plot, without the tubes beside it
_STAVES = (4300, 4700, 5000, 5300, 5700, 6400, 6700, 7100, 7400, 7700)  # the lines of bass and treble, written
_UNDER = 68  # characters of the line under the title
_TICKS = 12  # beats that are named, at most
_DASHES = {"broken": "8 5", "dotted": "2 5"}


def sketch(case: Case, findings: Sequence[Finding] = (), verdict: str = "", *, bare: bool = False) -> str:
    """The picture as SVG.

    findings   told below it, with their numbers at the points they are about
    verdict    in words, beside the title
    bare       without title, verdict and the words of findings, which stand beside it
    """
    heard = perform(case.gesture, case.realisation)
    plot = _plot(case, heard)
    reached, tube = tuple(bands(case)), ladder(case)
    title = case.gesture.title or case.gesture.name
    parts = [] if bare else [words(shortened(title, verdict, WIDTH), LEFT, 22, font_size=15, font_weight="bold")]
    if verdict and not bare:
        parts.append(
            words(verdict, LEFT + WIDTH, 22, font_size=13, text_anchor="end", fill=verdict_colour(verdict))
        )
    room = tube.words if tube is not None else reached[0].words if reached else ""
    under = _under(_played(case), room)
    parts += [words(under, LEFT, 40, fill=REACH)] if under else []
    parts += _ground(case, plot)
    parts += [part for band in reached for part in _band(plot, case, band)]
    parts += _rungs(plot, tube) if tube is not None else ()
    parts += _heard(plot, heard)
    parts += _asked(plot, case, reached)
    parts += _numbers(plot, case, findings)
    beside = LEFT + WIDTH + (_NUMBERS if tube is not None else 0)
    parts += _beside(case, plot, beside)
    width, columns = beside + _GAP, _COLUMNS
    if tube is not None and tube.used:
        parts += _tubes(case, plot, tube, width)
        width, columns = width + _SIDE, columns + 30
    lines = list(told(findings, columns))
    top = TOP + HEIGHT + _BOTTOM + _LINE
    shown = [] if bare else lines
    for row, (text, colour) in enumerate(shown):
        parts.append(words(text, LEFT, top + row * _LINE, fill=colour))
    said = " ".join(text.strip() for text, _ in lines)
    height = top + len(shown) * _LINE
    return svg.document(
        parts, width + _RIGHT, height, f"{title}: written pitches over time", f"{room} {said}".strip()
    )


def _played(case: Case) -> str:
    """The techniques in force, by their names, each change after the other; "" for ordinary playing throughout."""
    rows: list[str] = []
    for point in case.gesture.points:
        names = " + ".join(_named(one, case) for one in point.techniques or case.gesture.techniques)
        if names and names not in rows[-1:]:
            rows.append(names)
    ordinary = techniques.get("ordinary").title["en"]
    return "" if rows in ([], [ordinary]) else ", then ".join(rows)


def _named(technique: Technique, case: Case) -> str:
    title = technique.title["en"]
    return f"{title} ({case.gesture.mute})" if technique.takes_mute and case.gesture.mute else title


def _under(played: str, room: str) -> str:
    """The line under the title: what is played and how far that reaches; cut to the width, the reach never."""
    whole = f"{played}: {room}" if played and room else played or room
    if len(whole) <= _UNDER:
        return whole
    return room if room else f"{whole[: _UNDER - 1].rstrip(' ,+')}…"


def _plot(case: Case, heard: Performance) -> Plot:
    up = -float(case.instrument.sounding.cents)
    points = [*case.gesture.points, *(case.gesture.sing.points if case.gesture.sing is not None else ())]
    heights = [float(p.sounding_cents) for p in points if p.sounding_cents is not None]
    for tone in heard.tones:
        heights += [cents for _, cents in tone.pitch]
    low, high = around(heights or [float(case.instrument.usual_range.value[0])], up)
    time = heard.time if len(heard.time) > 1 else ((Fraction(0), 0.0), (case.gesture.beats, heard.seconds))
    return Plot(low=low, high=high, seconds=heard.seconds or 1.0, time=time, up=up)


# --- ground ----------------------------------------------------------------------------------------------------


def _ground(case: Case, plot: Plot) -> Iterator[str]:
    """The frame, the lines of the staves, the registers, where the ranges end, and the axes."""
    instrument = case.instrument
    for i, register in enumerate(instrument.registers):
        low, high = (float(pitch.pitch_cents) - plot.up for pitch in (register.low, register.high))
        top, bottom = plot.y(high + 50), plot.y(low - 50)
        if bottom - top > 1:
            yield box(LEFT, top, WIDTH, bottom - top, fill="#f1f4f6" if i % 2 else "#fafbfc")
        if bottom - top > 7 * len(register.name):
            middle = svg.number((top + bottom) / 2)
            turned = f"rotate(-90 14 {middle})"
            yield words(
                register.name,
                14,
                (top + bottom) / 2,
                font_size=10,
                fill=SOFT,
                text_anchor="middle",
                transform=turned,
            )
    for cents in _STAVES:
        if plot.low < cents < plot.high:
            y = plot.y(cents - plot.up)
            yield path([(LEFT, y), (LEFT + WIDTH, y)], FAINT, 1)
    for name, edges in (("usual", instrument.usual_range.value), ("widest", instrument.widest_range.value)):
        for edge in edges:
            if plot.shows(edge):
                y = plot.y(edge)
                dash = "6 3" if name == "usual" else "1 3"
                yield path(
                    [(LEFT, y), (LEFT + WIDTH, y)], REFUSED if name == "widest" else CARE, 1, stroke_dasharray=dash
                )
    yield box(LEFT, TOP, WIDTH, HEIGHT, fill="none", stroke=SOFT)
    step = 500 if plot.high - plot.low < 3000 else 1200
    for cents in range(0, 13_000, 100):
        named = cents % 1200 in (
            (0, 500, 700) if step == 500 else (0, 700) if plot.high - plot.low < 5000 else (0,)
        )
        if named and plot.low < cents < plot.high:
            name = written_name(instrument, cents - plot.up)
            yield words(name, LEFT - 6, plot.y(cents - plot.up) + 4, text_anchor="end", fill=SOFT)
    beats = case.gesture.beats
    stride = max(1, math.ceil(beats / _TICKS))
    for beat in range(0, math.floor(beats) + 1, stride):
        x = plot.at(Fraction(beat))
        yield path([(x, TOP + HEIGHT), (x, TOP + HEIGHT + 4)], SOFT, 1)
        yield words(str(beat), x, TOP + HEIGHT + 16, text_anchor="middle", font_size=10, fill=SOFT)
    yield words("thick as written, thin as it sounds", LEFT, TOP + HEIGHT + 30, font_size=10, fill=SOFT)
    whole = f"beats; {plot.seconds:.3g} s"
    yield words(whole, LEFT + WIDTH, TOP + HEIGHT + 30, text_anchor="end", font_size=10, fill=SOFT)


def _beside(case: Case, plot: Plot, left: float) -> Iterator[str]:
    """Where the ranges end, and which line is sung, one below the other at the right of the plot."""
    rows = [
        (plot.y(edge) + (-3 if which == "bottom" else 10), f"{name} {which} note")
        for name, edges in (
            ("usual", case.instrument.usual_range.value),
            ("widest", case.instrument.widest_range.value),
        )
        for which, edge in zip(("bottom", "top"), edges, strict=True)
        if plot.shows(edge)
    ]
    sung = case.gesture.sing.points if case.gesture.sing is not None else ()
    last = next((p.sounding_cents for p in reversed(sung) if p.sounding_cents is not None), None)
    if last is not None:
        rows.append((plot.y(float(last)) + 4, "sung"))
    least = -math.inf
    for y, text in sorted(rows):
        least = max(y, least + 10)
        yield words(text, left + 4, least, font_size=9, fill=SOFT)


# --- what can be done ------------------------------------------------------------------------------------------


def _band(plot: Plot, case: Case, band: ReachBand) -> Iterator[str]:
    """A band: dark where it is sure, pale to the widest reading, with dashed borders."""
    points = case.gesture.points
    left, right = plot.at(points[band.first].at), plot.at(points[band.last].until)
    for (low, high), opacity in ((band.widest, 0.13), (band.sure, 0.22)):
        top, bottom = plot.y(high), plot.y(low)
        yield box(left, top, max(right - left, 2.0), bottom - top, fill=REACH, fill_opacity=str(opacity))
    for edge in band.sure:
        y = plot.y(edge)
        yield path([(left, y), (right, y)], REACH, 1, stroke_dasharray="4 3")


def _rungs(plot: Plot, tube: Ladder) -> Iterator[str]:
    """The harmonics of a tube: those on the way drawn through, others dotted; their numbers beside the plot."""
    last = math.inf
    for n, cents in tube.rungs:
        if not plot.shows(cents):
            continue
        y, used = plot.y(cents), n in tube.used or not tube.used
        dash = {} if used else {"stroke_dasharray": "1 4"}
        yield path([(LEFT, y), (LEFT + WIDTH, y)], REACH, 1.4 if used else 0.8, **dash)
        if last - y > 9:
            last = y
            weight = "bold" if n in tube.used else "normal"
            yield words(str(n), LEFT + WIDTH + 4, y + 4, font_size=10, fill=REACH, font_weight=weight)


def _tubes(case: Case, plot: Plot, chosen: Ladder, left: float) -> Iterator[str]:
    """All tubes as ladders on the same heights, with how many of their harmonics lie on the way."""
    ends = [float(p.sounding_cents) for p in case.gesture.points if p.sounding_cents is not None]
    low, high = min(ends) - 50, max(ends) + 50
    tubes = sorted(case.instrument.tubes, key=lambda tube: -tube.fundamental_cents)
    step = _SIDE / len(tubes)
    yield box(left, TOP, _SIDE, HEIGHT, fill="none", stroke=SOFT)
    yield box(left, plot.y(high), _SIDE, plot.y(low) - plot.y(high), fill=REACH, fill_opacity="0.1")
    yield words(
        "harmonics on the way, of every tube",
        left + _SIDE,
        TOP + HEIGHT + 30,
        text_anchor="end",
        font_size=10,
        fill=SOFT,
    )
    for i, tube in enumerate(tubes):
        mine, x, count = tube == chosen.tube, left + i * step, 0
        for _, cents in rungs(tube):
            inside = low <= cents <= high
            count += inside
            if plot.shows(cents):
                y = plot.y(cents)
                stroke, width = (REACH, 2.5) if mine and inside else (INK, 1.2) if inside else (FAINT, 1)
                yield path([(x + 1.5, y), (x + step - 1.5, y)], stroke, width)
        if mine or len(tubes) <= 16:
            weight = "bold" if mine else "normal"
            yield words(
                str(count),
                x + step / 2,
                TOP + HEIGHT + 15,
                text_anchor="middle",
                font_size=9,
                fill=REACH if mine else SOFT,
                font_weight=weight,
            )
        if mine:
            yield box(x, TOP, step, HEIGHT, fill="none", stroke=REACH)
            anchor = "start" if i < len(tubes) / 3 else "end" if i > 2 * len(tubes) / 3 else "middle"
            yield words(tube.name, x + step / 2, TOP - 6, text_anchor=anchor, fill=REACH)


# --- the gesture -----------------------------------------------------------------------------------------------


def _heard(plot: Plot, heard: Performance) -> Iterator[str]:
    """How it sounds: pitches as thin lines, noises as strokes at the bottom."""
    for tone in heard.tones:
        if tone.noise:
            x = plot.x(tone.start)
            yield path([(x, TOP + HEIGHT - 26), (x, TOP + HEIGHT - 6)], HEARD, 2.5)
        elif tone.pitch:
            dash = {"stroke_dasharray": "3 2"} if tone.voice == "sung" else {}
            yield path(plot.curve(_sampled(tone.pitch)), HEARD, 1.3, **dash)
            for wave in tone.waves:
                yield from _edges(plot, tone.pitch, wave.cents, both=wave.kind == "vibrato")


def _edges(
    plot: Plot, pitch: Sequence[tuple[float, float]], cents: Sequence[tuple[float, float]], *, both: bool
) -> Iterator[str]:
    """How far a vibrato or trill takes the pitch: thin lines beside it."""
    times = sorted({seconds for seconds, _ in (*pitch, *cents)})
    for sign in (1, -1) if both else (1,):
        rows = [(plot.x(s), plot.y(at(tuple(pitch), s) + sign * at(tuple(cents), s))) for s in times]
        if len(rows) > 1:
            yield path(rows, HEARD, 0.8, stroke_dasharray="2 2")


def _sampled(curve: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple(curve) if len(curve) > 1 else (*curve, *curve)


def _asked(plot: Plot, case: Case, reached: Sequence[ReachBand]) -> Iterator[str]:
    """The line as written; broken where it leaves what is sure to be reached, and thicker where nothing goes."""
    gesture = case.gesture
    beyond = {index: far for band in reached for index, far in leaves(case, band)}
    lines = [(gesture.points, gesture.segments, beyond)]
    if gesture.sing is not None:
        lines.append((gesture.sing.points, gesture.sing.segments, {}))
    for points, segments, outside in lines:
        for index, (point, after) in enumerate(pairwise(points)):
            if point.sounding_cents is None or after.sounding_cents is None or not segments[index].slides:
                continue
            ends = [(plot.at(p.at), plot.y(float(p.sounding_cents or 0))) for p in (point, after)]
            far = outside.get(index, outside.get(index + 1))
            if far is None:
                dash = _DASHES.get(segments[index].kind)
                more = {"stroke_dasharray": dash} if dash else {}
                yield path(_wavy(*ends) if segments[index].kind == "wavy" else ends, INK, 2.4, **more)
            else:
                yield path(
                    ends, REFUSED if far else CARE, 5 if far else 3.5, stroke_dasharray="3 4" if far else "8 4"
                )
        for index, point in enumerate(points):
            if point.sounding_cents is not None:
                x, y = plot.at(point.at), plot.y(float(point.sounding_cents))
                if not (index < len(segments) and segments[index].slides):
                    yield path([(x, y), (plot.at(point.until), y)], INK, 1, stroke_dasharray="1 3")
                yield from _head(x, y, about=point.about)


def _wavy(start: Point, end: Point) -> list[Point]:
    """A wavy line."""
    count = max(8, int(math.hypot(end[0] - start[0], end[1] - start[1]) / 2))
    across = -(end[1] - start[1]), end[0] - start[0]
    length = math.hypot(*across) or 1.0
    rows = []
    for k in range(count + 1):
        share, off = k / count, 2.2 * math.sin(k * 0.9)
        rows.append(
            (
                start[0] + (end[0] - start[0]) * share + off * across[0] / length,
                start[1] + (end[1] - start[1]) * share + off * across[1] / length,
            )
        )
    return rows


def _head(x: float, y: float, *, about: bool) -> Iterator[str]:
    if about:
        yield path([(x - 4, y - 4), (x + 4, y + 4)], INK, 2)
        yield path([(x - 4, y + 4), (x + 4, y - 4)], INK, 2)
    else:
        yield element("circle", cx=x, cy=y, r=3.8, fill=INK)


# --- findings --------------------------------------------------------------------------------------------------


def _numbers(plot: Plot, case: Case, findings: Sequence[Finding]) -> Iterator[str]:
    """The number of each finding above the point that it is about."""
    taken: dict[float, int] = {}
    for number, finding in enumerate(findings, start=1):
        index = next((i for i, p in enumerate(case.gesture.points) if _within(finding, p.span)), None)
        x = plot.at(case.gesture.points[index].at) if index is not None else LEFT - 28
        row = taken.get(x, 0)
        taken[x] = row + 1
        colour = severity_colour(finding.severity)
        if index is not None and not row:
            yield path([(x, TOP), (x, TOP + HEIGHT)], colour, 0.8, stroke_dasharray="1 3")
        yield element("circle", cx=x + 17 * row, cy=TOP - 9, r=8, fill=colour)
        yield words(str(number), x + 17 * row, TOP - 5, text_anchor="middle", fill="#ffffff", font_weight="bold")


def _within(finding: Finding, span: object) -> bool:
    line, column, end = (getattr(span, name) for name in ("line", "column", "end_column"))
    return bool(finding.span.line == line and column <= finding.span.column < end)
