"""A technique is named where it changes nothing.

Checks  every `as` and `without` at a point: whether any note would be played differently without it; every
        technique of the gesture, and its mute: whether any note is played with it; `fingering`: whether anything
        has a pitch. The kind of tonguing matters only to tongued notes, not to those reached by a line or slur
Why     nothing in a file should be without effect: the composer may have meant something else
Fires
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C5, C5 as stopped
Passes
    instrument: horn
    pitches: written
    gesture a
      technique: stopped
      contour: C5, C5 as ordinary
Fix     remove it, or name the technique that is meant: `as ordinary` ends all in force, `without NAME` ends one,
        `as NAME` turns to one
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from gesturesmith import techniques
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.model.force import NO_CHANGE, Change, in_force
from gesturesmith.model.gesture import ContourPoint, Gesture, attack_times
from gesturesmith.realise.in_force import is_muted
from gesturesmith.rules.base import Case, Finding, Outcome, rule
from gesturesmith.techniques.base import Technique

type _Word = Literal["", "as", "without"]  # before a technique at a point
_EVIDENCE = Sourced("in force", DERIVED, "the techniques in force at each note, with the word and without it")

type _Forces = list[frozenset[Technique]]


def _beside_a_fallback(outcome: Outcome) -> Iterator[Finding]:
    """Techniques that no note would use even without the refusals of others."""
    if outcome.replaced:
        gesture = outcome.asked.gesture
        played = _played(gesture, [_change(p) for p in gesture.points], _struck(gesture))
        yield from _never(gesture, {t for force in played for t in force})


@rule(
    "GS720",
    "word-without-effect",
    severity="advice",
    outcome=_beside_a_fallback,
    only=("changes", "joined", "vague"),
)
def check(case: Case) -> Iterator[Finding]:
    gesture = case.gesture
    changes = [_change(p) for p in gesture.points]
    struck = _struck(gesture)
    played = _played(gesture, changes, struck)
    for index, (point, change) in enumerate(zip(gesture.points, changes, strict=True)):
        for sign, technique, less in _less(change):
            if _played(gesture, [*changes[:index], less, *changes[index + 1 :]], struck) == played:
                why = _why(gesture, changes, index, sign, technique)
                yield Finding(
                    span=point.span,
                    text=f"`{f'{sign} {_written(point, sign, technique)}'.strip()}` changes nothing: {why}",
                    hint=_hint(gesture, index, sign, technique),
                    evidence=_EVIDENCE,
                )
    yield from _unfingered(case)
    if not case.realisation.used_fallback:
        yield from _never(gesture, {t for force in played for t in force})


def _written(point: ContourPoint, sign: _Word, technique: Technique) -> str:
    """A technique as the point names it."""
    if sign == "as" and point.named:
        return point.named[point.turns_to.index(technique.key)]
    return technique.key


def _change(point: ContourPoint) -> Change:
    if not (point.turns_to or point.ends or point.covers or point.opens):
        return NO_CHANGE
    return Change(
        tuple(techniques.get(key) for key in point.turns_to),
        tuple(techniques.get(key) for key in point.ends),
        techniques.get(point.covers) if point.covers else None,
        point.opens,
    )


def _struck(gesture: Gesture) -> list[bool]:
    """For each point, whether the tongue attacks there or before the next."""
    attacks = attack_times(gesture)
    return [bisect_left(attacks, point.at) < bisect_left(attacks, point.until) for point in gesture.points]


def _played(gesture: Gesture, changes: list[Change], struck: list[bool]) -> _Forces:
    """The techniques in force at each sounding note that have an effect there."""
    forces = in_force(gesture.techniques, changes, [s.slides for s in gesture.segments])
    return [
        frozenset(t for t in force if t.layer != "none" and (tongued or not t.tongues_only))
        for force, point, tongued in zip(forces, gesture.points, struck, strict=True)
        if point.kind != "silence"
    ]


def _less(change: Change) -> Iterator[tuple[_Word, Technique, Change]]:
    """Each word of a change, the technique it names, and the change without it."""
    for ended in change.ends:
        yield "without", ended, replace(change, ends=tuple(e for e in change.ends if e != ended))
    for turn in change.turns_to:
        yield "as", turn, replace(change, turns_to=tuple(t for t in change.turns_to if t != turn))
    if change.covers is not None:
        yield "", change.covers, replace(change, covers=None)


def _why(gesture: Gesture, changes: list[Change], index: int, sign: _Word, technique: Technique) -> str:
    """Why a word at a point has no effect."""
    if all(p.kind == "silence" for p in gesture.points[index:]):
        return "nothing is played after it"
    lines = [s.slides for s in gesture.segments]
    before = in_force(gesture.techniques, [*changes[:index], NO_CHANGE], lines)[index]
    after = in_force(gesture.techniques, changes[: index + 1], lines)[index]
    if technique.layer in ("none", "attack") and any(t.tongues_only for t in {*before} ^ {*after}):
        return "what a line or slur reaches is not tongued"
    if sign != "without":
        # The hand on the horn makes `closed` and `stopped` one: it is named as before, or else as typed here.
        earlier = next((p for p in reversed(gesture.points[:index]) if technique.key in p.turns_to), None)
        typed = _written(earlier, "as", technique) if earlier else _written(gesture.points[index], sign, technique)
        there = [t for t in before if t.layer != "none"]
        named = [typed if t == technique and not t.takes_mute else _name(gesture, t) for t in there]
        names = named or ["ordinary playing"]
        return f"{' + '.join(names)} {'is' if len(names) == 1 else 'are'} already in force"
    turns = changes[index].turns_to
    if technique not in before:
        return f"{technique.key} is not in force here"
    return f"`as {turns[0].key}` ends it already" if turns else "it ends there anyway"


def _name(gesture: Gesture, technique: Technique) -> str:
    """A technique as the file names it: that of the mute may be named only by `mute`."""
    return f"the {gesture.mute} mute" if technique.takes_mute and "mute" in gesture.spans else technique.key


def _hint(gesture: Gesture, index: int, sign: _Word, technique: Technique) -> str:
    """What to write instead. Turning back to ordinary before the mute goes in suggests that it should be in from
    the start."""
    first = next((n for n, p in enumerate(gesture.points) if is_muted(p.techniques)), 0)
    if sign == "as" and technique.layer == "none" and first > index:
        row = [t for t in gesture.techniques if t.layer != "none"]
        row += [t for t in gesture.points[first].techniques if t.takes_mute]
        return f"to begin with the mute write `technique: {' + '.join(t.key for t in row)}`"
    return "remove it, or name what is meant"


def _unfingered(case: Case) -> Iterator[Finding]:
    """A fingering for notes without pitch."""
    gesture = case.gesture
    points = gesture.sounding_points
    if "fingering" not in gesture.spans or not points:
        return
    silent = [next((t for t in p.techniques if t.pitched == "none"), None) for p in points]
    if all(silent):
        names = " + ".join(dict.fromkeys(t.key for t in silent if t is not None))
        yield Finding(
            span=gesture.span_of("fingering"),
            text=f"{names} has no pitch, and a fingering changes nothing",
            hint="remove it",
            evidence=_EVIDENCE,
        )


def _never(gesture: Gesture, played: set[Technique]) -> Iterator[Finding]:
    """Techniques that the gesture asks for but no note uses; a mute that never goes in."""
    dry = "mute" in gesture.spans and not any(t.takes_mute for t in played)
    for technique in gesture.techniques:
        if len(gesture.techniques) > 1 and technique.layer == "none":
            text = f"{technique.key} has no effect next to other techniques"
        elif technique not in played and technique.layer != "none":
            if dry and technique.takes_mute and "technique" not in gesture.spans:
                continue  # only `mute` asks for it
            text = f"{technique.key} is asked for, but every note turns away from it"
        else:
            continue
        yield Finding(span=gesture.span_of("technique"), text=text, hint="remove it", evidence=_EVIDENCE)
    if dry:
        yield Finding(
            span=gesture.span_of("mute"),
            text=f"a {gesture.mute} mute is named, and no note is played with it",
            hint="remove it, or write `as muted` where it goes in",
            evidence=_EVIDENCE,
        )
