"""Which technique a sign of notation stands for, by what techniques say of their looks."""

from __future__ import annotations

from functools import cache

from gesturesmith import techniques
from gesturesmith.kinds import AskedHead, EdgeShape, ScriptSign
from gesturesmith.techniques.base import Technique


@cache
def _all() -> tuple[Technique, ...]:
    return tuple(map(techniques.get, techniques.names()))


@cache
def of_edge(edge: EdgeShape) -> str:
    """The technique with this sign at the edge of a note."""
    return next((t.key for t in _all() if t.look.edge == edge), "")


@cache
def of_script(script: ScriptSign, *, hand: bool) -> str:
    """The technique with this sign over the note; `hand`: what the hand in the bell does, else what covers it."""
    found = [t for t in _all() if t.look.script == script]
    return next((t.key for t in found if bool(t.bell_hand) == hand), found[0].key if found else "")


@cache
def of_motion(motion: str) -> str:
    """The technique drawn by this sign of a motion."""
    return next((t.key for t in _all() if t.look.motion == motion), "")


@cache
def of_strokes() -> str:
    """The technique of three strokes through the stem that are not counted: the roll of the tongue."""
    return next(t.key for t in _all() if t.look.tremolo)


@cache
def of_trill(kind: str, *, valves: bool) -> str:
    """The technique of a trill by what it goes to ("above", "same", "other"), else the lip's."""
    found = [t for t in _all() if t.trill == kind and (valves or t.layer != "valves")]
    found.sort(key=lambda t: not t.look.trill)
    found += [t for t in _all() if t.trill == "neighbour" and t.look.trill]
    return found[0].key


@cache
def of_head(head: AskedHead) -> str:
    """The technique that only its notehead shows, "" if there is none."""
    return next((t.key for t in _all() if t.look.head == head and not t.look.word), "")


@cache
def of_quarter_tones() -> str:
    """The technique of pitches between the semitones."""
    return next(t.key for t in _all() if t.grid == 50)
