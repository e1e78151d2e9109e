"""How waves are drawn: closer where they are faster, higher where wider; or as signs of open and closed."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.model.gesture import WaveMark
from gesturesmith.model.waves import course, waves_hz
from gesturesmith.rules.base import Case
from gesturesmith.score.marks import WaveRows, Waves
from gesturesmith.techniques.base import Technique

# Times the ordinary wave: more than is heard, so that it is seen. Our own judgement.
_DRAWN = {"slow": 0.5, "medium": 1.0, "fast": 2.0, "narrow": 0.5, "wide": 2.0}
_LEAST, _MOST = 0.4, 2.5


def drawn_waves(case: Case, technique: Technique, start: Fraction, end: Fraction) -> Waves | None:
    """The waves of a technique over a stretch of its gesture, in beats; None if its own sign says enough: nothing
    is asked of its speed and width, or it has none."""
    gesture, usual = case.gesture, technique.sound.waves_hz
    if usual is None or start >= end:
        return None

    def speed(mark: WaveMark) -> float:
        if mark.per_second is None:
            return _DRAWN[mark.word]
        return min(max(waves_hz(mark, technique) / usual.value, _LEAST), _MOST)

    width = gesture.width if technique.varies_width else ()
    if not gesture.speed and not width and not technique.sound.opens:
        return None
    return Waves(
        speed=_rows(course(gesture.speed, start, end, speed), start, end),
        width=_rows(course(width, start, end, lambda mark: _DRAWN[mark.word]), start, end),
        signs=technique.sound.opens,
    )


def rate(case: Case, start: Fraction, end: Fraction) -> str:
    """The waves a second that are asked for by number over a stretch: `3/s`, `3–7/s`; "" if none are."""
    marks = case.gesture.speed
    within = [mark for mark in marks if start <= mark.at <= end] or [mark for mark in marks if mark.at < start][-1:]
    numbers = [f"{float(mark.per_second):g}" for mark in within if mark.per_second is not None]
    return f"{'–'.join(numbers)}/s" if numbers else ""


def _rows(found: tuple[tuple[Fraction, float], ...], start: Fraction, end: Fraction) -> WaveRows:
    """Times as shares of the stretch; without any the ordinary wave throughout."""
    return tuple(((at - start) / (end - start), value) for at, value in found) or ((Fraction(0), 1.0),)
