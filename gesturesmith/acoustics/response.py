"""Time: how long a note takes to form, and how long a breath lasts."""

from __future__ import annotations


def round_trip_s(first_partial_hz: float) -> float:
    """Seconds a pulse takes to the bell and back: one period of the first partial."""
    return 1.0 / first_partial_hz


def periods_in(seconds: float, hz: float) -> float:
    """How many periods of a note at `hz` fit in a time."""
    return seconds * hz


def seconds_for(periods: float, hz: float) -> float:
    """Seconds that a number of periods at `hz` take."""
    return periods / hz


def round_trips_in(seconds: float, first_partial_hz: float) -> float:
    """How often a pulse goes to the bell and back in a time."""
    return seconds * first_partial_hz


def notes_per_s(beats_per_minute: float, notes_per_beat: float) -> float:
    """Notes per second at a tempo."""
    return beats_per_minute * notes_per_beat / 60.0


def phrase_s(litres: float, litres_per_s: float) -> float:
    """The length of one breath in seconds."""
    return litres / litres_per_s


def allowed_minutes(level_dba: float, full_day_dba: float = 85.0, exchange_db: float = 3.0) -> float:
    """Minutes per day at a sound level, NIOSH: 8 h at 85 dB(A), halved for every 3 dB more."""
    return float(480.0 * 2.0 ** ((full_day_dba - level_dba) / exchange_db))
