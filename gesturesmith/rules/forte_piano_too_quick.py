"""A forte-piano has no time for its soft part to be heard.

Checks  the time from an `fp` or `sfp` to the next level, attack or silence
Why     the note has to be loud and then soft before the next one begins; if it is too short for both, only an
        accent is heard
Fires
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      attacks: 4
      dynamics: fp each
      lasts: 1 beat
Passes
    instrument: horn
    pitches: written
    tempo: 60
    gesture a
      contour: C5
      attacks: 4
      dynamics: fp each
      lasts: 4 beats
Fix     give it more time, or ask for an accent: `sfz each`, or the word `accent`
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.model.gesture import DynamicMark, attack_times, sounds
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared import fixes
from gesturesmith.rules.shared.limits import below
from gesturesmith.rules.shared.reading import apart, plain, seconds_between


@rule("GS408", "forte-piano-too-quick", severity="caution", only=("forte-piano",), graces=False)
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    ends = sorted({*attack_times(gesture), *(m.at for m in gesture.dynamics), sounds(gesture)[1], gesture.beats})
    worst: tuple[float, DynamicMark] | None = None
    for mark in gesture.dynamics:
        if mark.left == mark.plain:
            continue
        following = next((at for at in ends if at > mark.at), gesture.beats)
        seconds = seconds_between(gesture, mark.at, following)
        if worst is None or seconds < worst[0]:
            worst = seconds, mark
    excess = below(case.instrument.limits.get("forte_piano_s"), worst[0]) if worst is not None else None
    if worst is not None and excess is not None:
        seconds, mark = worst
        yield Finding(
            span=mark.span,
            text=f"{mark.level} in {apart(seconds, excess.limit)} s; its soft part takes about "
            f"{plain(excess.limit)} s to be heard",
            evidence=excess.evidence,
            severity=excess.severity,
            numbers=(Number(name="seconds", value=seconds, limit=excess.limit, unit="s"),),
            proposed_fixes=fixes.slower(gesture, excess.limit / seconds) if seconds > 0 else (),
        )
