"""A pitch can be played, but lip, hand or a drawn slide has to bring it into tune.

Checks  every exact pitch played on a non-standard fingering: how far its partial is from it
Why     the player should know by how much, and the composer may prefer a neighbouring pitch that is in tune by
        itself; a correction takes time to hear and colours the note
Fires
    instrument: trumpet
    pitches: written
    gesture a
      technique: quarter-tones
      contour: C^5
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: quarter-tones
      contour: F#^5
Fix     nothing, if there is time to find the note; else write the neighbouring pitch
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import fingered_path, plain, played_points, tube_words

_MEANS = {
    "lip": ("", "the lip brings it {way}"),  # with separate limits each way
    "hand": ("hand_lower_cents", "the hand in the bell brings it down, which muffles it"),
    "slide": ("valve_slide_cents", "a drawn valve slide brings it down"),
}


@rule("GS211", "pitch-needs-correction", severity="advice")
def check(case: Case) -> Iterator[Finding]:
    if len(case.instrument.tubes) == 1:
        return  # on a natural horn the hand is the usual means
    found = [
        (point, played)
        for point, played in played_points(case)
        if played.correction and played.tube and not (played.standard or point.about)
        and fingered_path(case, played.index) in ("none", "steps")
    ]  # fmt: skip
    if not found:
        return
    point, played = max(found, key=lambda pair: abs(pair[1].error_cents))
    name, words = _MEANS[played.correction]
    limit = case.instrument.limits[name] if name else case.instrument.lip_limit(played.error_cents)
    assert limit is not None  # without it there is no such correction
    off = abs(played.error_cents)
    side, way = ("above", "down") if played.error_cents > 0 else ("below", "up")
    others = len(found) - 1
    more = f" ({others} more {'note needs' if others == 1 else 'notes need'} less)" if others else ""
    tube = tube_words(case.instrument, played.tube)
    yield Finding(
        span=point.span,
        text=f"partial {played.partial} of {tube} lies {plain(off)} cents {side} it; {words.format(way=way)}{more}",
        evidence=limit.narrow,
        numbers=(Number(name="correction", value=off, limit=limit.narrow.value, unit="cents"),),
    )
