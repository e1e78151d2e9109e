"""A vibrato, trill, shake, tremolo or wah-wah is asked for faster than it can be made.

Checks  every speed given as a number of waves a second, against the technique; of a wah-wah, the time from closed
        to open against the time that what covers the bell or the mute needs
Why     each wave is a movement there and back, of lip, jaw, fingers or hand
Fires
    instrument: trumpet
    pitches: written
    gesture a
      technique: wah-wah
      mute: plunger
      contour: G4
      lasts: 4 beats
      speed: 2 < 8
Passes
    instrument: trumpet
    pitches: written
    gesture a
      technique: wah-wah
      mute: plunger
      contour: G4
      lasts: 4 beats
      speed: 1 < 4
Fix     ask for fewer waves a second, or write `fast`: as fast as the player likes
"""

from collections.abc import Iterator

from gesturesmith.diagnostics import Number
from gesturesmith.evidence import Limit, Sourced
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.limits import above
from gesturesmith.rules.shared.reading import apart, plain
from gesturesmith.techniques.base import Technique


@rule("GS320", "waves-too-fast", severity="caution", only=("speed",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    waving = dict.fromkeys(t for p in gesture.sounding_points for t in p.techniques if t.sound.waves_hz is not None)
    for mark in gesture.speed:
        for technique in waving:
            if mark.per_second is None:
                continue
            asked = float(mark.per_second)
            excess = above(_fastest(case, technique), asked)
            if excess is not None:
                yield Finding(
                    span=mark.span,
                    text=f"{apart(asked, excess.limit)} waves a second; a {technique.title['en'].lower()} has "
                    f"about {plain(excess.limit)} at most",
                    evidence=excess.evidence,
                    severity=excess.severity,
                    numbers=(Number(name="waves", value=asked, limit=excess.limit, unit="1/s"),),
                )


def _fastest(case: Case, technique: Technique) -> Limit | None:
    """The fastest waves: those of the technique, or closing and opening as quickly as from note to note."""
    if not technique.sound.opens:
        return technique.limits.get("waves_per_s")
    change = case.instrument.limits.get("cover_change_s")
    if change is None:
        return None
    seconds = change.narrow.value
    return Limit(Sourced(round(1 / (2 * seconds), 1), change.narrow.kind, change.narrow.source), unit="1/s")
