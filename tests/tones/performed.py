"""The sound of gestures and files, for tests."""

from __future__ import annotations

from itertools import pairwise

from realise.realised import gesture

from gesturesmith.checker import Checked, check_text
from gesturesmith.realise import realise
from gesturesmith.source import Source
from gesturesmith.tones import Performance, Tone, perform, perform_passage
from gesturesmith.tones.types import Curve


def performed(contour: str, *more: str, **options: str | int) -> Performance:
    """A gesture of the horn, at one quarter per second."""
    one = gesture(contour, *more, **options)
    return perform(one, realise(one))


def tones(contour: str, *more: str, voice: str = "played", **options: str | int) -> tuple[Tone, ...]:
    return tuple(t for t in performed(contour, *more, **options).tones if t.voice == voice)


def checked(text: str) -> Checked:
    found = check_text(Source("heard.gesture", text), suggestions=False)
    assert not found.reading.errors, found.reading.errors
    return found


def performances(found: Checked) -> dict[str, Performance]:
    """Everything in a file, by its name."""
    made = {name: perform(case.gesture, case.realisation) for name, case in found.cases.items()}
    for name, case in found.passage_cases.items():
        ways = [(one.gesture, one.realisation) if one is not None else None for one in case.cases]
        made[name] = perform_passage(case.passage, ways)
    for part in found.parts:
        made |= {f"{part.part.name}: {name}": one for name, one in performances(part).items()}
    return made


def passage(text: str) -> Performance:
    """The passage `p` of a file for horn."""
    return performances(checked(f"instrument: horn\npitches: written\ntempo: 60\n{text}"))["p"]


def shape(curve: Curve, digits: int = 2) -> list[tuple[float, float]]:
    """The rows of a curve, rounded."""
    return [(round(seconds, digits), round(value, digits)) for seconds, value in curve]


def steady(curve: Curve) -> list[float]:
    """The constant values of a curve, in order, rounded to the cent."""
    found: list[float] = []
    for (a, one), (b, two) in pairwise(curve):
        if b > a and one == two and (not found or found[-1] != round(one)):
            found.append(round(one))
    return found
