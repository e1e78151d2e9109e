"""An exact pitch is between those the instrument's tubes can give, even with the help of lip and hand.

Checks  every exact pitch played as a separate note, against the nearest partial of every tube, or of the tube
        that is held
Why     a brass instrument has the partials of its tubes, and what lip, hand and drawn slides can pull them to;
        between these a note slips to the nearest one or splits
Fires
    instrument: trombone
    pitches: written
    gesture a
      contour: C2
Passes
    instrument: trombone
    pitches: written
    gesture a
      contour: C3
Fix     take the nearest available pitch, or mark the pitch as approximate with x
"""

import math
from collections.abc import Iterator
from dataclasses import replace

from gesturesmith.acoustics.series import hand_glide_cents
from gesturesmith.diagnostics import Number, Severity
from gesturesmith.diagnostics.changes import FingeringChange
from gesturesmith.evidence import DERIVED, Limit, Sourced
from gesturesmith.model.gesture import ContourPoint
from gesturesmith.model.realisation import PlayedPoint
from gesturesmith.realise.in_force import hand_is_free, pitched_by
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import Excess, above
from gesturesmith.rules.shared.reading import (
    apart,
    exact_name,
    far_range,
    fingered_path,
    plain,
    played_points,
    tube_words,
)


@rule("GS201", "pitch-no-tube-gives", severity="refused")
def check(case: Case) -> Iterator[Finding]:
    lowest = far_range(case.instrument)[0]
    held = case.gesture.fingering.mode == "held"
    for point, played in played_points(case):
        if point.kind != "pitch" or point.about or played.given or played.correction:
            continue
        if (
            fingered_path(case, played.index) not in ("none", "steps", "slide")
            or pitched_by(point.techniques) != "exact"
            or any(t.harmonic for t in point.techniques)  # which have rules of their own
        ):
            continue
        excess, means = _excess(case, point, played)
        if excess is None or played.asked_cents is None or played.asked_cents < lowest:
            continue  # within reach, or out of range altogether, which has its own rule
        if played.standard and excess.severity is not Severity.REFUSED:
            continue  # players correct the chart's own fingerings from habit
        if played.error_cents < 0 and played.tube and played.partial >= played.tube.widest_partials[1]:
            continue  # above the highest documented partial: also a matter of range
        off = abs(played.error_cents)
        side = "above" if played.error_cents > 0 else "below"
        forced = means == _FORCED
        nearest = float(played.asked_cents) + played.error_cents
        note = _charted(case, played, nearest)
        tube = f" ({tube_words(case.instrument, played.tube)}, partial {played.partial})" if played.tube else ""
        reach = "parts ask for" if excess.severity is Severity.REFUSED else "usual is"
        yield Finding(
            span=point.span,
            text=f"a factitious note, which has no partial of its own: {means} {plain(off)} cents down from "
            f"{_named(case, note, nearest)}{tube}; {reach} up to {plain(excess.limit)}{excess.caveat}"
            if forced
            else f"the nearest pitch {side} it that {'the held tube' if held else 'any tube'} gives is "
            f"{_named(case, note, nearest)}{tube}, {apart(off, excess.limit)} cents away; {means} up to "
            f"{plain(excess.limit)}{excess.caveat}",
            hint=f"write {exact_name(case.instrument, note)}, or x for about this pitch"
            + (", or ask for a fake tone with technique: factitious" if _between(played) else ""),
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="distance to the nearest partial", value=off, limit=excess.limit, unit="cents"),),
            physical=excess.severity is Severity.REFUSED,
            proposed_fixes=(
                *((FingeringChange("auto"),) for _ in range(held)),
                *fixes.at_pitch(case, played.index, note),
                *fixes.about(case.gesture, played.index),
            ),
        )


def _charted(case: Case, played: PlayedPoint, nearest: float) -> int:
    """The note a partial is played as, in sounding cents: the chart's if it uses the partial, else the nearest."""
    instrument = case.instrument
    notes = sorted((abs(n - nearest), n) for n in (100 * math.floor(nearest / 100), 100 * math.ceil(nearest / 100)))
    for _, note in notes:
        written = round(note - instrument.sounding.cents)
        if played.tube is not None and instrument.chart.get(written) == played.tube.name:
            return note
    return notes[0][1]


def _named(case: Case, note: int, nearest: float) -> str:
    """A sounding pitch named after the note it is played as: "F#3+54c"."""
    off = round(nearest) - note
    return exact_name(case.instrument, note) + (f"{off:+d}c" if off else "")


def _between(played: PlayedPoint) -> bool:
    """Whether a note lies between the first two partials, where players force one if they are asked to."""
    return played.partial == (2 if played.error_cents > 0 else 1)


_FORCED = "the lip forces it"
_LAW = "to a half step above the next partial down, and as far beyond as is in tune: Ericson, ASU; computed"


def _hand(case: Case, played: PlayedPoint) -> Limit:
    """How far the closing hand takes a note: to a half step above the next partial below the one that is played."""
    limit, near = (case.instrument.limits[name] for name in ("hand_lower_cents", "in_tune_cents"))
    reach = hand_glide_cents(played.partial) + float(near.narrow.value)
    return replace(limit, wide=Sourced(max(reach, limit.narrow.value), DERIVED, _LAW))


def _excess(case: Case, point: ContourPoint, played: PlayedPoint) -> tuple[Excess | None, str]:
    """How far a note is out of reach of the lip or, downwards with a free hand, of the hand."""
    limits = case.instrument.limits
    lip = above(case.instrument.lip_limit(played.error_cents), abs(played.error_cents))
    free = case.instrument.has_hand and hand_is_free(point.techniques)
    if lip is None or not free or played.error_cents < 0 or "hand_lower_cents" not in limits:
        return lip, f"the lip brings it {'down' if played.error_cents > 0 else 'up'} by"
    if played.partial == 2 and "factitious_cents" in limits:
        forced = above(limits["factitious_cents"], played.error_cents)
        if forced is not None:
            return forced, _FORCED
    hand = above(_hand(case, played), played.error_cents)
    if hand is None or hand.severity.rank < lip.severity.rank:
        return hand, "the hand lowers it by"
    return lip, "the lip brings it down by"
