"""A box is repeated longer than one breath lasts, or than a technique in it can be kept up.

Checks  how long what stands in a box is repeated, or the most that is reckoned for its cue: against the air of
        one breath if there is no rest, no breath mark and no note long enough to breathe at its end, and against
        the longest time of its techniques if there is no rest
Why     who repeats something freely has to breathe somewhere; where nothing says where, every player breathes where
        it is needed, and the repetition has a hole
Fires
    instrument: horn
    pitches: written
    tempo: 60
    box b
      play: C4 for 1/4, D4 for 1/4
      lasts: 40 s
    passage p
      play: b
Passes
    instrument: horn
    pitches: written
    tempo: 60
    box b
      play: C4 for 1/4, D4 for 1/4 breath
      lasts: 40 s
    passage p
      play: b
Fix     write a rest or the word `breath` in the box, make it shorter, or softer
"""

from collections.abc import Iterator
from itertools import repeat

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.piece import Box
from gesturesmith.rules.base import Case, Finding, PassageCase, passage_rule
from gesturesmith.rules.shared.account import breath_litres, cells, gives_time
from gesturesmith.rules.shared.limits import above, of_technique
from gesturesmith.rules.shared.reading import apart, plain


@passage_rule("GS609", "box-too-long", severity="caution")
def check(passage: PassageCase) -> Iterator[Finding]:
    for item in passage.passage.items:
        if item.box is not None and item.box.goes_on:
            box = item.box.box
            seconds = float(box.beats * 60 / passage.passage.tempo_map.tempo_at(item.at))
            for cell in cells(passage, box):
                played = [case for _, case in cell if case is not None]
                points = [point for case in played for point in case.gesture.points]
                rests = len(played) < len(cell) or any(point.kind == "silence" for point in points)
                breathes = rests or any(map(_breathes, points, [*points[1:], points[0]], repeat(played[0])))
                if not breathes:
                    yield from _air(box, played, seconds)
                if not rests:
                    yield from _techniques(box, played, seconds)


def _breathes(point: ContourPoint, after: ContourPoint, case: Case) -> bool:
    """Whether a breath is asked for after a note, or can be taken at its end, if the next is attacked."""
    return "breath" in point.marks or point.breath == "in" or gives_time(case, point, after)


def _air(box: Box, played: list[Case], seconds: float) -> Iterator[Finding]:
    litres = played[0].instrument.limits.get("breath_litres")
    once = sum(float(case.gesture.seconds) for case in played)
    used = sum(breath_litres(case) for case in played)
    if litres is None or not used:
        return
    longest = float(litres.narrow.value) * once / used
    if seconds > longest:
        yield Finding(
            span=box.span,
            where=box.name,
            text=f"{_how_long(box, seconds)} without a breath; one breath lasts about {plain(longest)} s here",
            hint="a rest or the word `breath` in the box says where to breathe",
            evidence=litres.narrow,
            severity=Severity.CAUTION,
            numbers=(Number(name="time", value=seconds, limit=longest, unit="s"),),
        )


def _techniques(box: Box, played: list[Case], seconds: float) -> Iterator[Finding]:
    rows = [set(p.techniques) for case in played for p in case.gesture.points]
    for technique in sorted(set.intersection(*rows), key=lambda t: t.key):
        excess = above(of_technique(played[0].instrument, technique, "longest_s"), seconds)
        if excess is not None:
            yield Finding(
                span=box.span,
                where=box.name,
                text=f"{_how_long(box, seconds, apart(seconds, excess.limit))} of {technique.title['en'].lower()}; "
                f"about {plain(excess.limit)} s is possible without a break",
                hint="a rest in the box gives one",
                evidence=excess.evidence,
                severity=excess.severity,
                numbers=(Number(name="time", value=seconds, limit=excess.limit, unit="s"),),
            )


def _how_long(box: Box, seconds: float, said: str = "") -> str:
    length = f"{said or plain(seconds)} s"
    return f"until the cue, assumed to take {length}," if box.cue else length
