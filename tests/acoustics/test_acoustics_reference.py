"""Our functions against values from outside the project, row by row (tests/reference/check_values.csv)."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from gesturesmith import instruments
from gesturesmith.acoustics import response, series, tubing
from gesturesmith.units import Spelling, frequency_hz

TABLE = Path(__file__).parent.parent / "reference" / "check_values.csv"
TOPICS = ("series", "tubing", "quarter tones", "bend and hand", "harmonic glissando", "time", "breath", "care")
VALVES = (2, 1, 3)
ALTER = {"": 0, "#": 1, "b": -1, " quarter sharp": 0.5, " quarter flat": -0.5}
F1, BB1 = 2900, 3400
IDEAL = {"F0": 2900, "Bb0": 3400, "F123": 2300}  # first partials with ideal lengths, sounding cents above C-1

with TABLE.open(encoding="utf-8", newline="") as file:
    ROWS = [
        r for r in csv.DictReader(file) if r["topic"] in TOPICS and r["kind"] != "memory" and r["low"] and r["high"]
    ]


def pitch_cents(name: str) -> float:
    """`Bb1`, `C4 quarter sharp`: cents above C-1."""
    letter, sign, octave, quarter = re.fullmatch(r"([A-G])([#b]?)(\d)( quarter \w+)?", name).groups()
    plain = Spelling(letter, 0, int(octave)).pitch_cents
    return float(plain) + 100 * (ALTER[sign] + ALTER[quarter or ""])


def combination_error(pressed: str, tuning: str) -> float:
    return tubing.combination_error_cents(VALVES, [int(v) for v in pressed], tuning)


def partials_inside(low: str, high: str, tube: str) -> int:
    down_a_fifth = -700
    ends = (pitch_cents(low) + down_a_fifth, pitch_cents(high) + down_a_fifth)
    return len(series.partials_between(IDEAL[tube], *ends, slack_cents=35))


def shown_partial(tube: str) -> int:
    side, valves = re.fullmatch(r"(F|Bb)(\d+)", tube).groups()
    return instruments.get("horn").tube(f"{side} {'-'.join(valves)}").widest_partials[1]


def stopped_semitones(side_name: str) -> float:
    side = next(s for s in instruments.get("horn").sides if s.name == side_name)
    return side.stopped_cents.value / 100


# The quantity of a row -> how we compute it. Each pattern must match the whole quantity.
HOW = [
    (r"partial (\d+): deviation from 12-TET.*", lambda n: series.deviation_cents(int(n))),
    (r"frequency ([A-G][#b]?\d(?: quarter \w+)?)(?: \(.*\))?", lambda p: frequency_hz(pitch_cents(p))),
    (r"valve combination (\d+), each valve tuned alone: .*", lambda v: combination_error(v, "alone")),
    (r"valve combination (\d+), 3rd slide set so 2\+3 is exact: .*", lambda v: combination_error(v, "2-3")),
    (r"horn F 1-2-3 vs natural horn in B.*", lambda: combination_error("123", "alone")),
    (r"(\w+) half wavelength c/\(2f\), c=343", lambda p: tubing.half_wavelength_m(frequency_hz(pitch_cents(p)))),
    (r"highest partial demonstrated on (\w+) .*", shown_partial),
    (
        r"tenor trombone slide extension, position (\d) .*",
        lambda k: 100 * tubing.slide_extension_m(frequency_hz(BB1), int(k)),
    ),
    (r"(\d+)\w\w partial vs nearest quarter tone", lambda n: series.quarter_tone_deviation_cents(int(n))),
    (r"hand-stop glide from open partial (\d+) down to .*", lambda n: series.hand_glide_cents(int(n))),
    (r"stopped horn, F side: sounds above the fingered open note", lambda: stopped_semitones("F")),
    (r"partials inside written (\w+)-(\w+) inclusive \(\+-35 c\), tube (\w+)", partials_inside),
    (
        r"(\d+) periods at (\w+) [\d.]+ Hz",
        lambda n, p: 1000 * response.seconds_for(int(n), frequency_hz(pitch_cents(p))),
    ),
    (r"air-column round trip, F side open.*", lambda: 1000 * response.round_trip_s(frequency_hz(F1))),
    (r"air-column round trip, B-flat side open", lambda: 1000 * response.round_trip_s(frequency_hz(BB1))),
    (
        r"Moore 1973: .* tone at (\d+) Hz: difference limen ([\d.]+) Hz",
        lambda f, d: series.cents_of_difference(float(f), float(d)),
    ),
    (r"phrase seconds = .*; (\d+) L at ([\d.]+) L/s", lambda v, f: response.phrase_s(float(v), float(f))),
    (r"NIOSH allowed duration at (\d+) dBA .*", lambda level: response.allowed_minutes(float(level))),
]


@pytest.mark.parametrize("row", ROWS, ids=lambda r: f"{r['topic']}: {r['quantity']}")
def test_value_from_outside(row: dict[str, str]) -> None:
    """Each row gives the source and standing of its value."""
    found = [(m, compute) for pattern, compute in HOW if (m := re.fullmatch(pattern, row["quantity"]))]
    assert len(found) == 1, f"no function for: {row['quantity']}"
    match, compute = found[0]
    value = compute(*match.groups())
    assert float(row["low"]) <= value <= float(row["high"]), f"{value} {row['unit']}, source: {row['source']}"


def test_the_table_is_complete() -> None:
    topics = {row["topic"] for row in ROWS}
    assert topics == set(TOPICS)
    assert len(ROWS) >= 75


@pytest.mark.parametrize("n", range(4, 17))
def test_steps_shrink(n: int) -> None:
    assert series.step_cents(n) < series.step_cents(n - 1)


# check_values.csv, "step from partial n to n+1", semitones to three places.
@pytest.mark.parametrize(
    ("n", "semitones"), [(4, 3.863), (6, 2.669), (8, 2.039), (9, 1.824), (12, 1.386), (16, 1.050)]
)
def test_step_to_the_next_partial(n: int, semitones: float) -> None:
    assert series.step_cents(n) / 100 == pytest.approx(semitones, abs=0.0005)


# check_values.csv: sixteenths at 110 and 126.
@pytest.mark.parametrize(("tempo", "rate"), [(110, 7.33), (126, 8.40)])
def test_sixteenths_a_second(tempo: int, rate: float) -> None:
    assert response.notes_per_s(tempo, 4) == pytest.approx(rate, abs=0.005)
