"""Meters, keys and rehearsal marks of a passage, in playing order."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from gesturesmith.backends.midi.smf import TICKS, Event, meta
from gesturesmith.model.changes import KeyChange, MeterChange, RehearsalMark
from gesturesmith.score.music import Music
from gesturesmith.units import KeySignature

MARKER = 0x06
_METER, _KEY = 0x58, 0x59
_CLOCKS = 24  # of MIDI in a quarter
_SHORTEST = 64  # denominator of a time signature


def signatures(music: Music) -> Iterator[Event]:
    """Time signatures where they change, key signatures and rehearsal marks, with repeats written out."""
    meter, key = None, None
    for played, start, end in _stretches(music):
        places = {start, *(change.at for change in music.changes), *([music.pickup] if start == 0 else ())}
        for at in sorted(place for place in places if start <= place < end):
            tick = round((played + at - start) * TICKS)
            now = _meter_at(music, at)
            if now is not None and now != meter:
                meter = now
                yield tick, 1, _time_signature(now, music.counted)
            sounding = _key_at(music, at)
            if sounding is not None and sounding != key:
                key = sounding
                yield tick, 1, _key_signature(sounding)
            for change in music.changes:
                if isinstance(change, RehearsalMark) and change.at == at:
                    yield tick, 1, meta(MARKER, change.text.encode())


def _stretches(music: Music) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    """What is played one after another: when it is played, and from when to when it stands on the page."""
    played = done = Fraction(0)
    for repeat in music.repeats:
        for start, end in ((done, repeat.start), *[(repeat.start, repeat.end)] * repeat.times):
            if end > start:
                yield played, start, end
                played += end - start
        done = repeat.end
    if music.beats > done:
        yield played, done, music.beats


def _meter_at(music: Music, at: Fraction) -> tuple[int, int] | None:
    """The meter at a time, for an incomplete first bar one of its length; None without bars."""
    if music.meter is None:
        return None
    if at < music.pickup:
        below = 4
        while below < _SHORTEST and music.pickup * below % 4:
            below *= 2
        return int(music.pickup * below / 4) or 1, below
    found = music.meter
    for change in music.changes:
        if isinstance(change, MeterChange) and change.at <= at:
            found = change.meter
    return found


def _key_at(music: Music, at: Fraction) -> KeySignature | None:
    """The sounding key at a time, None for none."""
    found = music.key
    for change in music.changes:
        if isinstance(change, KeyChange) and change.at <= at:
            found = change.key
    return found.transposed(music.transposition) if found is not None else None


def _time_signature(meter: tuple[int, int], counted: Fraction | None) -> bytes:
    """A time signature, with the clocks between two clicks of the metronome."""
    above, below = meter
    click = counted if counted is not None else Fraction(4, below)
    return meta(_METER, bytes((above, below.bit_length() - 1, min(255, round(_CLOCKS * click)), 8)))


def _key_signature(key: KeySignature) -> bytes:
    return meta(_KEY, bytes((key.fifths & 0xFF, int(key.mode == "minor"))))
