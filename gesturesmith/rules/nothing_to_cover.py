"""There is nothing that could be opened and closed.

Checks  every closed or half-closed note: whether the mute in the bell has an opening to cover or, without a mute,
        whether the player's hand reaches the bell
Why     a plunger is moved, and a harmon mute covered, by the free hand; other mutes stay as they are. The bells of
        tubas and euphoniums point away from the hands
Fires
    instrument: trumpet
    pitches: written
    gesture a
      mute: cup
      contour: G4 closed, G4 open
Passes
    instrument: trumpet
    pitches: written
    gesture a
      mute: plunger
      contour: G4 closed, G4 open
Fix     name `mute: plunger` or `mute: harmon`, or leave the mute out where the hand covers the bell
"""

from collections.abc import Iterator

from gesturesmith.evidence import MEMORY, Sourced
from gesturesmith.realise.in_force import cover, is_muted
from gesturesmith.rules.base import Case, Finding, rule

_COVERED = ("plunger", "harmon")
_MUTES = Sourced(_COVERED, MEMORY, "plunger and harmon are the mutes that are opened and closed")
_BELL = Sourced("out of reach", MEMORY, "the bell points up or away, far from the hands")


@rule("GS321", "nothing-to-cover", severity="caution", only=("cover",))
def check(case: Case) -> Iterator[Finding]:
    for point in case.gesture.sounding_points:
        techniques = case.in_force(point)
        if not cover(techniques):
            continue
        mute = case.gesture.mute if is_muted(techniques) else None
        if mute is not None and mute not in _COVERED:
            yield Finding(
                span=point.span,
                text=f"a {mute} mute has nothing to open and close",
                hint="name `mute: plunger` or `mute: harmon`",
                evidence=_MUTES,
            )
        elif mute is None and not case.instrument.bell_in_reach:
            yield Finding(
                span=point.span,
                text=f"no hand reaches the bell of the {case.instrument.name} while playing",
                hint="leave it open, or name a mute that stays in",
                evidence=_BELL,
            )
