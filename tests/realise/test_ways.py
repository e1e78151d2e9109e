"""The possible fingerings of a pitch considered by the choice."""

from __future__ import annotations

import pytest
from realise.realised import realised

from gesturesmith.realise import ways

# Runs high on the tuba, where many partials and fingerings are close together.
RUNS = [
    ("F4, A#4, A4, C5", "1/3"),
    ("G4, G4, B4, C5, A4, D#5", "1/2"),
    ("A4, D5, D#5, C#5, F#5", "5/8"),
    ("G#4, A4, C#5, A#4, C5, B4", "3/5"),
    ("G#4, D5, A4", "3/10"),
]


def played(contour: str, seconds: str) -> list:
    found = realised(contour, f"lasts: {seconds} s", instrument="tuba")
    return [(p.tube.name if p.tube else "", p.partial) for p in found.points]


def forget() -> None:
    ways.ways.cache_clear()


@pytest.mark.parametrize(("contour", "seconds"), RUNS)
def test_no_fingering_that_is_passed_over_would_have_been_chosen(contour, seconds, monkeypatch):
    """For speed only the cheapest few of a pitch are considered: enough for every run."""
    forget()
    shipped = played(contour, seconds)
    monkeypatch.setattr(ways, "_KEPT", 1000)
    forget()
    everything = played(contour, seconds)
    forget()
    assert shipped == everything
