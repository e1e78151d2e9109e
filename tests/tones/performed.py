"""Gestures and files as they are heard, for tests."""

from __future__ import annotations

from itertools import pairwise

from realise.realised import gesture

from gesturesmith.checker import Checked, check
from gesturesmith.lang import parse
from gesturesmith.model.resolve import resolve
from gesturesmith.realise import realise
from gesturesmith.source import Source
from gesturesmith.tones import Performance, Tone, perform, perform_passage
from gesturesmith.tones.types import Curve


def performed(contour: str, *more: str, **options: str | int) -> Performance:
    """A gesture of the horn, at a quarter a second."""
    one = gesture(contour, *more, **options)
    return perform(one, realise(one))


def tones(contour: str, *more: str, voice: str = "played", **options: str | int) -> tuple[Tone, ...]:
    return tuple(t for t in performed(contour, *more, **options).tones if t.voice == voice)


def checked(text: str) -> Checked:
    source = Source("heard.gesture", text)
    tree, errors = parse(source)
    assert not errors, errors
    piece, errors = resolve(tree)
    assert not errors, errors
    assert piece is not None
    return check(piece, tree, source, (), suggestions=False)


def passage(text: str, name: str = "p") -> Performance:
    case = checked(f"instrument: horn\npitches: written\ntempo: 60\n{text}").passage_cases[name]
    return perform_passage(
        case.passage, [(one.gesture, one.realisation) if one is not None else None for one in case.cases]
    )


def shape(curve: Curve, digits: int = 2) -> list[tuple[float, float]]:
    """The rows of a curve, rounded."""
    return [(round(seconds, digits), round(value, digits)) for seconds, value in curve]


def steady(curve: Curve) -> list[float]:
    """The values on which a curve rests, in order, rounded to the cent."""
    found: list[float] = []
    for (a, one), (b, two) in pairwise(curve):
        if b > a and one == two and (not found or found[-1] != round(one)):
            found.append(round(one))
    return found
