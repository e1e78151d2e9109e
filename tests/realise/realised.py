"""Gestures written in the language, resolved and realised, for tests."""

from __future__ import annotations

from gesturesmith.model.gesture import Gesture
from gesturesmith.model.reading import read
from gesturesmith.model.realisation import Realisation
from gesturesmith.realise.gesture import realise
from gesturesmith.source import Source


def gesture(
    contour: str, *more: str, instrument: str = "horn", pitches: str = "written", tempo: int = 60
) -> Gesture:
    """One gesture of a file; `more` are further lines of its block."""
    block = "\n".join(f"  {line}" for line in (f"contour: {contour}", *more))
    text = f"instrument: {instrument}\npitches: {pitches}\ntempo: {tempo}\ngesture g\n{block}\n"
    reading = read(Source("test.gesture", text))
    assert not reading.errors, [e.message for e in reading.errors]
    assert reading.piece is not None
    return reading.piece.gestures[0]


def realised(contour: str, *more: str, **options: str | int) -> Realisation:
    return realise(gesture(contour, *more, **options))  # type: ignore[arg-type]


def tubes(realisation: Realisation) -> list[str]:
    """The names of the tubes, point by point; "" where there is none."""
    return [p.tube.name if p.tube else "" for p in realisation.points]


def partials(realisation: Realisation) -> list[int]:
    return [p.partial for p in realisation.points]
