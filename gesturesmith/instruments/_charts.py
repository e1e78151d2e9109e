"""Fingering charts shared by instruments: they follow from the harmonic series."""

from __future__ import annotations

from gesturesmith.instruments._build import cents

# For each semitone from six below partial 2 to partial 16: the fewest valves that give it, as in every elementary
# three-valve chart (common practice; the partials used are 2, 3, 4, 5, 6, 8, 10, 12 and 16).
_FEWEST = (
    "1-2-3 1-3 2-3 1-2 1 2 0 1-2-3 1-3 2-3 1-2 1 2 0 2-3 1-2 1 2 0 1-2 1 2 0 1 2 0 "
    "2-3 1-2 1 2 0 1-2 1 2 0 1 2 0 2-3 1-2 1 2 0"
)
_THREE = tuple(_FEWEST.split())
_FOUR = {"1-2-3": "2-4", "1-3": "4"}  # the fourth valve gives these better in tune
# By semitones below partial 2: the combination nearest above, which a drawn valve slide brings down (derived: 48,
# 4, 37 and 75 cents); eleven semitones are beyond the reach of four valves.
_BELOW_FOUR = {7: "1-4", 8: "2-3-4", 9: "1-3-4", 10: "1-2-3-4"}


def three_valves(second_partial: str, side: str = "", low: str = "", high: str = "") -> dict[int, str]:
    """The chart of a three-valve side with written open second partial `second_partial` ("C4").

    low, high   written limits, both inclusive; "" for no limit
    """
    lowest = cents(second_partial) - 600
    start, end = cents(low) if low else lowest, cents(high) if high else lowest + 100 * len(_THREE)
    written = ((lowest + 100 * i, f"{side} {valves}".strip()) for i, valves in enumerate(_THREE))
    return {pitch: tube for pitch, tube in written if start <= pitch <= end}


def four_valves(second_partial: str, high: str = "", *, extended: bool = False) -> dict[int, str]:
    """The same with a fourth valve of five semitones; `extended`: with the notes further down that it gives with a
    drawn slide.
    """
    below = {cents(second_partial) - 100 * n: tube for n, tube in _BELOW_FOUR.items()} if extended else {}
    return below | {pitch: _FOUR.get(tube, tube) for pitch, tube in three_valves(second_partial, high=high).items()}


def pedals(second_partial: str, side: str = "", *, fourth: bool = False, low: str = "") -> dict[int, str]:
    """Pedal notes, partial 1 of every tube, fingered as an octave higher; `low` is a written limit."""
    first = cents(second_partial) - 1200
    tubes = [_FOUR.get(tube, tube) if fourth else tube for tube in reversed(_THREE[:7])]
    found = {first - 100 * n: f"{side} {tube}".strip() for n, tube in enumerate(tubes)}
    return {pitch: tube for pitch, tube in found.items() if not low or pitch >= cents(low)}


# OEIS A309909, citing Kennan, The Technique of Orchestration (1952), pp. 136-141: the shortest slide position for
# each note of the chromatic scale of the tenor trombone; E1 to Bb1, then E2 to Eb5.
_PEDALS = (7, 6, 5, 4, 3, 2, 1)
_TENOR = tuple(map(int, "765432176543215432143213213232121212"))


def tenor_slide() -> dict[int, str]:
    """Slide positions of the tenor trombone: E1 to Bb1 and E2 to Eb5, sounding as written."""
    pedals = {cents("E1") + 100 * i: str(p) for i, p in enumerate(_PEDALS)}
    return pedals | {cents("E2") + 100 * i: str(p) for i, p in enumerate(_TENOR)}
