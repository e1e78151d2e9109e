"""A sung line continues where no technique with the voice is in force.

Checks  the time of every note of `sing:` against the stretches in which a technique with the voice is in force; a
        line that turns into one counts
Why     the words over the notes say where the player sings: sung notes elsewhere contradict them
Fires
    instrument: horn
    pitches: written
    gesture a
      contour: C4 as multiphonic, D4 as ordinary
      sing: G4
Passes
    instrument: horn
    pitches: written
    gesture a
      contour: C4 as multiphonic, D4 as ordinary
      sing: G4, r
Fix     write rests in the sung line where nothing is sung, or keep `multiphonic` in force throughout
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.rules.base import Case, Finding, rule
from gesturesmith.rules.shared.reading import in_force

_EVIDENCE = Sourced("sings", DERIVED, "the techniques in force at each note, and the time of each sung one")


@rule("GS717", "sung-outside-technique", severity="caution", only=("sung",))
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    names = " + ".join(t.key for t in in_force(case) if t.sings)
    if gesture.sing is None or not names:
        return
    for note, start, end in _outside(gesture, gesture.sing.points):
        stretch = f"{_time(gesture, start)} to {_time(gesture, end)} {_unit(gesture, end)}"
        yield Finding(
            span=note.span,
            text=f"to be sung from {stretch}, where {names} is not in force",
            hint=f"{_instead(gesture, start, end)}, or use {names} there as well",
            evidence=_EVIDENCE,
        )


def _outside(gesture: Gesture, sung: tuple[ContourPoint, ...]) -> list[tuple[ContourPoint, Fraction, Fraction]]:
    """Each stretch of the sung line without a technique that sings: its first note, its start and end in beats."""
    silent = [
        (point.at, point.until)
        for point, following in pairwise((*gesture.points, None))
        if point is not None and not _sings(point) and not (following is not None and _turned(following))
    ]
    found: list[tuple[ContourPoint, Fraction, Fraction]] = []
    for note in sung:
        for at, until in silent if note.kind != "silence" else ():
            start, end = max(note.at, at), min(note.until, until)
            if start < end and found and found[-1][2] == start:
                found[-1] = (*found[-1][:2], end)
            elif start < end:
                found.append((note, start, end))
    return found


def _sings(point: ContourPoint) -> bool:
    return any(t.sings for t in point.techniques)


def _turned(point: ContourPoint) -> bool:
    """Whether the line to a point leads into singing."""
    return point.reached == "line" and _sings(point)


def _time(gesture: Gesture, at: Fraction) -> Fraction:
    """A time as written after `@`: in beats or in seconds."""
    return at * 60 / gesture.tempo if gesture.in_seconds else at / gesture.beat


def _unit(gesture: Gesture, at: Fraction) -> str:
    if gesture.in_seconds:
        return "s"
    return "beat" if at == 1 else "beats"


def _instead(gesture: Gesture, start: Fraction, end: Fraction) -> str:
    """What to write in the sung line for a stretch without singing."""
    if start == 0 and end >= gesture.beats:
        return "remove `sing`"
    rest = (
        f"write a rest in the sung line, `r@{_time(gesture, start)}`" if start else "begin the sung line with `r`"
    )
    return f"{rest}, and continue at `@{_time(gesture, end)}`" if end < gesture.beats else rest
