"""A phrase is longer than one breath.

Checks  the air each phrase takes, its seconds times the flow at its register, level and techniques, from one place
        to breathe to the next: a rest, a breath mark, or a note of at least 0.4 s that no slur or line leaves. In a
        passage phrases go on from one item to the next
Why     a player has three to five litres for a phrase; low and loud notes take several times the air of high
        soft ones
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C4
      lasts: 30 beats
      dynamics: ff
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      lasts: 8 beats
      dynamics: p
Fix     add a rest `r` or a `breath`, make it shorter or softer; circular breathing is a reason for `allow`
"""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import zip_longest
from math import prod

from gesturesmith.diagnostics import Number, Severity
from gesturesmith.diagnostics.changes import Fix, LengthChange
from gesturesmith.evidence import PLAYER
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.gesture import LEVELS, ContourPoint
from gesturesmith.model.tempo import FERMATA
from gesturesmith.rules.base import Case, Finding, PassageCase, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.account import (
    air_flow,
    bar_words,
    breathing,
    flow,
    gives_time,
)
from gesturesmith.rules.shared.limits import FAR
from gesturesmith.rules.shared.reading import apart, plain, slot_s


def _in_passage(passage: PassageCase) -> Iterator[Finding]:
    """The first phrase that goes from one item to the next and is longer than a breath."""
    case = next((c for c in passage.cases if c is not None), None)
    litres = case.instrument.limits.get("breath_litres") if case is not None else None
    if litres is None:
        return
    for now in breathing(passage):
        begin = now.begin
        if begin is None or begin.item is None or begin.turn == now.moment.turn or not now.moment.sounds:
            continue
        if round(now.litres, 9) > litres.narrow.value:
            yield Finding(
                span=begin.item.span,
                where=begin.item.played,
                text=f"from here{bar_words(passage, begin.item)} more than {plain(now.seconds)} s without a place "
                f"to breathe, {apart(now.litres, litres.narrow.value)} L of air and more; a breath holds about "
                f"{plain(litres.narrow.value)}",
                hint="a rest, the word `breath`, or a note of at least 0.4 s gives time to breathe",
                evidence=litres.narrow,
                numbers=(Number(name="air", value=now.litres, limit=litres.narrow.value, unit="L"),),
            )
            return


@rule("GS601", "breath-too-short", severity="caution", passage=_in_passage)
def check(case: Case) -> Iterator[Finding]:
    litres = case.instrument.limits.get("breath_litres")
    least = case.instrument.limits.get("breath_flow_least")
    if litres is None or _surely_enough(case, float(litres.narrow.value)):
        return
    for phrase in _phrases(case):
        slots = [(slot_s(case.gesture, p), p) for p in phrase]
        seconds = sum(s for s, _ in slots)
        used = round(sum(s * flow(case, p) for s, p in slots), 9)  # exact when it only just lasts
        wide = litres.wide
        never = wide is not None and least is not None and seconds * least.narrow.value > wide.value * FAR
        if used <= litres.narrow.value and not never:
            continue
        fits = float(case.gesture.seconds) * litres.narrow.value / used if used > litres.narrow.value else 0.0
        evidence, severity = litres.narrow, Severity.CAUTION
        if never and wide is not None and least is not None:
            evidence, severity, used = wide, Severity.REFUSED, seconds * least.narrow.value
        differ = ""
        if severity is Severity.CAUTION and wide is not None and evidence.kind is not PLAYER:
            differ = f" (readings differ, up to {plain(wide.value)})"
        how = "at the very least" if severity is Severity.REFUSED else "about"
        yield Finding(
            span=phrase[0].span,
            until=phrase[-1].span,
            text=f"{plain(seconds)} s without a breath need {how} {apart(used, evidence.value)} L of air; a "
            f"breath holds about {plain(evidence.value)}{differ}",
            hint="a rest `r` or the word `breath` gives time to breathe",
            evidence=evidence,
            severity=severity,
            numbers=(Number(name="air", value=used, limit=evidence.value, unit="L"),),
            proposed_fixes=(
                *_softer(case, slots, float(litres.narrow.value)),
                *fixes.breaths(case.gesture, phrase[0].at, phrase[-1].until, slurs=True),
                *_shorter(case, fits),
            ),
        )


def _softer(case: Case, slots: list[tuple[float, ContourPoint]], litres: float) -> Iterator[Fix]:
    """The same shape of dynamics, only as much softer as the breath needs."""
    for level in ("ff", "f", "mf", "mp", "p", "pp"):
        words = fixes.softened(case.gesture, level)
        made = replace(case, gesture=fixes.with_levels(case.gesture, words)) if words else case
        if words and sum(s * flow(made, p) for s, p in slots) <= litres:
            yield fixes.dynamics(case.gesture, words)
            return


def _surely_enough(case: Case, litres: float) -> bool:
    """Whether one breath lasts the whole gesture even at the highest flow of any register and level."""
    held = any("fermata" in point.marks for point in case.gesture.points)
    most = _most_flow(case.instrument) * case.gesture.in_time((case.gesture.beats,))[0] * (1 + FERMATA.value * held)
    rows = {id(p.techniques): p.techniques for p in case.gesture.points}
    factors = {t.key: t.flow.value for row in rows.values() for t in row if t.flow is not None}
    return most * prod(max(1.0, factor) for factor in factors.values()) <= litres


@lru_cache(maxsize=64)
def _most_flow(instrument: Instrument) -> float:
    return max(air_flow(instrument, r.name, level) for r in instrument.registers for level in range(len(LEVELS)))


def _phrases(case: Case) -> Iterator[list[ContourPoint]]:
    """The points of each phrase: up to where the player breathes in or could; breath marks are included.

    Nobody writes every breath: a player takes one at the end of a note that is long enough.
    """
    phrase: list[ContourPoint] = []
    points = case.gesture.points
    for point, after in zip_longest(points, points[1:]):
        if point.kind != "silence" and point.breath != "in":
            phrase.append(point)
        if phrase and (point.gives_breath or gives_time(case, point, after)):
            yield phrase
            phrase = []
    if phrase:
        yield phrase


def _shorter(case: Case, seconds: float) -> tuple[Fix, ...]:
    if case.gesture.in_seconds:
        half = int(seconds * 2)
        return ((LengthChange(Fraction(half, 2), True),),) if 0 < half < 10**6 else ()
    beats = int(seconds * float(case.gesture.tempo / case.gesture.beat) / 60)
    return ((LengthChange(Fraction(beats), False),),) if beats > 0 else ()
