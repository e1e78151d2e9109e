"""Contour lines, slurs, bands and length brackets: marks that reach from one event to another."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.kinds import Strokes
from gesturesmith.model.gesture import Gesture, Segment
from gesturesmith.realise.against import against_the_line
from gesturesmith.realise.in_force import path_of
from gesturesmith.rules.base import Case
from gesturesmith.score.events import EventBuilder, VoiceBuilder
from gesturesmith.score.heads import Stave, decimal
from gesturesmith.score.marks import BandEnd, BandStart, LengthEnd, LengthStart, LineEnd, LineStart, Script, Words
from gesturesmith.score.rhythm import Meter
from gesturesmith.score.technique_state import in_force, line_word
from gesturesmith.wording import text as wording

_STEPS_PER_CENT = 7 / 1200  # on average: an octave has seven steps


def draw(case: Case, line: VoiceBuilder) -> None:
    """Draw lines and slurs between the events of a voice. Successive lines of one kind are drawn as one."""
    segments = line.segments
    index = 0
    while index < len(segments):
        until = index + 1
        while until < len(segments) and _goes_on(segments[index], segments[until]):
            if segments[index].slides and line.points[until].extreme:
                break  # the arrow to an extreme ends its line
            until += 1
        start, end = line.at_point(index), line.at_point(until)
        style = segments[index].kind
        if style != "slur" and style != "none":  # narrows the type
            again = index > 0 and segments[index - 1].slides  # the word is on the first of several
            word = "" if again else line_word(in_force(case, start))
            turns = _turns(case, line, index, until) if style != "wavy" else ()
            start.marks.append(
                LineStart(
                    style=style,
                    growth=segments[index].growth,
                    word=word,
                    turns=turns,
                    arrow=style == "arrow" or line.points[until].extreme != "",
                )
            )
            # A line ends before the next one begins at the same head.
            end.marks.insert(0, LineEnd())
        elif segments[index].kind == "slur" and start is not end:
            start.begins_slur = end.ends_slur = True
        index = until
    for event in line.sounding:
        _draw_graces(event)
        point = event.point
        if point is not None and point.extreme and event.index is not None and point.reached != "line":
            event.marks.append(Script(sign="beyond-up" if point.extreme == "highest" else "beyond-down"))


def _turns(case: Case, line: VoiceBuilder, first: int, last: int) -> tuple[tuple[Fraction, Fraction], ...]:
    """Where the line between two points of the contour leaves the straight way: at the jumps of a slide against the
    grain. The composer's own wave stays as it is."""
    points, played = line.points, {p.index: p for p in case.realisation.points}
    begin, whole = points[first].at, points[last].at - points[first].at
    found = []
    for n in range(first, last):
        one, two = played.get(n), played.get(n + 1)
        against = path_of(points[n].techniques) == "against" and n + 1 not in case.realisation.breaks
        if points is not case.gesture.points or one is None or two is None or not against:
            continue
        low, wide = float(one.asked_cents or 0), float((two.asked_cents or 0) - (one.asked_cents or 0))
        for share, cents in against_the_line(one, two):
            at = (points[n].at - begin + (points[n + 1].at - points[n].at) * _rounded(share)) / whole
            found.append((at, _rounded((cents - low - share * wide) * _STEPS_PER_CENT)))
    return tuple(found)


def _rounded(number: float) -> Fraction:
    return Fraction(round(number * 1000), 1000)


def name_strokes(line: VoiceBuilder, language: str, before: Strokes) -> Strokes:
    """Words where unmeasured repetition begins and where it is measured again, since both have strokes. Each
    gesture repeats them; `before` is the last kind of repetition before it, and the one after it is returned."""
    said: Strokes = ""
    for event in line.sounding:
        strokes = event.point.strokes if event.point is not None else ""
        if strokes == "unmeasured" != said:
            event.marks.append(Words(text=wording("unmeasured", language)))
        elif strokes and "unmeasured" == (said or before) != strokes:
            event.marks.append(Words(text=wording("measured", language)))
        said = strokes or said
    return said or before


def _draw_graces(event: EventBuilder) -> None:
    """Lines and slurs between a note and its graces. Under a slur over the note they have none of their own; a slur
    that ends or begins at the note extends to them."""
    if event.point is None:
        return
    row = [*event.graces, event]
    joins = [grace.join for grace in event.point.graces] if event.graces else []
    for n, join in enumerate(joins):
        if join.kind != "slur" and join.kind != "none":
            arrow = join.kind == "arrow"
            row[n].marks.append(LineStart(style=join.kind, growth=join.growth, arrow=arrow))
            row[n + 1].marks.insert(0, LineEnd())
    if event.point.reached != "slur":
        _slur([join.kind == "slur" for join in joins], row)
    if event.after:
        _slur([grace.join.kind == "slur" for grace in event.point.after], [event, *event.after])


def _slur(slurred: list[bool], row: list[EventBuilder]) -> None:
    """Slurs over the slurred stretches of a row, as parts of an existing one at either end."""
    for n, joined in enumerate(slurred):
        if not joined:
            continue
        first, second = row[n], row[n + 1]
        if first.ends_slur:
            first.ends_slur = False
        else:
            first.begins_slur = True
        if second.begins_slur:
            second.begins_slur = False
        else:
            second.ends_slur = True


def _goes_on(one: Segment, two: Segment) -> bool:
    if not one.slides:
        return one.kind == "slur" == two.kind
    return one.kind == two.kind != "arrow" and one.growth == two.growth


def draw_band(gesture: Gesture, line: VoiceBuilder, stave: Stave) -> None:
    """Draw the grey field of a register band over the whole gesture; three lines already show a band."""
    if gesture.band is None or stave.lines == 3:
        return
    low, high = stave.band(gesture.band)
    first, last = line.sounding[0], line.sounding[-1]
    first.marks.append(BandStart(low=low, high=high))
    last.ends.append(BandEnd())


def draw_length(gesture: Gesture, line: VoiceBuilder, meter: Meter, language: str) -> None:
    """Draw the bracket with the length over music without note values."""
    seconds, beats = gesture.seconds, gesture.beats
    _bracket(
        line, beats, said_seconds(seconds, language) if gesture.in_seconds else said_beats(beats, meter, language)
    )


def draw_rest_length(
    line: VoiceBuilder, beats: Fraction, seconds: Fraction | None, meter: Meter, language: str
) -> None:
    """The same over a rest without a note value, whose sign would be counted as a quarter: between gestures in
    seconds its `seconds`, to a tenth (nobody can time a silence more closely), else its beats."""
    said = said_beats(beats, meter, language) if seconds is None else said_seconds(round(seconds, 1), language)
    _bracket(line, beats, said)


def _bracket(line: VoiceBuilder, beats: Fraction, text: str) -> None:
    first, last = line.events[0], line.stop or line.events[-1]
    first.marks.append(LengthStart(text=text, beats=beats))
    last.ends.append(LengthEnd())


def said_beats(beats: Fraction, meter: Meter, language: str) -> str:
    """`4 beats`; `4 quarters` if the player counts a note other than the quarter."""
    unit = "beat" if meter.quarters else "quarter"
    unit = unit if beats == Fraction(1) else f"{unit}s"
    return f"{_mixed(beats)} {wording(unit, language)}"


def said_seconds(seconds: Fraction, language: str) -> str:
    number = decimal(seconds).replace(".", wording("decimal", language))
    return f"{number} {wording('seconds', language)}"


def _mixed(number: Fraction) -> str:
    """`2`, `2 1/3`, `3/4`."""
    whole, rest = divmod(number, 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join([*parts, str(rest)] if rest else parts)
