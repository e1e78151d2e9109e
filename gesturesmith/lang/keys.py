"""Which keys stand where, and what reads the value of each."""

from __future__ import annotations

import re
from collections.abc import Callable

from gesturesmith.lang import playing, series, tokens, values
from gesturesmith.lang.contour import contour
from gesturesmith.lang.nodes import Value, Word
from gesturesmith.lang.play import play
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.words import (
    ACCIDENTALS,
    FINGERINGS,
    HEIGHT_LOOKS,
    MUTES,
    NOTEHEADS,
    PITCHES,
)

type Read = Callable[[Reader], Value]


def _one_of(options: tuple[str, ...], what: str) -> Read:
    def read(reader: Reader) -> Word:
        value = reader.choice(options, what)
        reader.finish("one word")
        return value

    return read


_FINGERINGS = _one_of(FINGERINGS, "a way to print fingerings")

SETTINGS: dict[str, Read] = {
    "language": values.language,
    "instrument": values.instrument,
    "pitches": _one_of(PITCHES, "a way to read pitches"),
    "tempo": values.tempo,
    "title": values.text,
    "subtitle": values.text,
    "composer": values.text,
    "part": values.text,
    "wording": values.wording,
    "meter": values.meter,
    "heights": _one_of(HEIGHT_LOOKS, "a way to draw heights"),
    "accidentals": _one_of(ACCIDENTALS, "a form of quarter-tone accidentals"),
    "fingerings": _FINGERINGS,
    "paper": values.paper,
    "staff": values.staff,
}
GESTURE: dict[str, Read] = {
    "technique": values.names,
    "contour": contour,
    "band": values.band,
    "lasts": values.lasts,
    "dynamics": playing.dynamics,
    "attacks": playing.attacks,
    "fingering": playing.fingering,
    "mute": _one_of(MUTES, "a mute"),
    "sing": contour,
    "fallback": values.one_technique,
    "text": values.text,
    "footnote": values.text,
    "note": values.text,
    "notehead": _one_of(NOTEHEADS, "a notehead"),
    "allow": values.allow,
}
PASSAGE: dict[str, Read] = {
    "play": play,
    "repeat": series.count,
    "tempo": values.tempo,
    "meter": values.meter,
}
EXERCISES: dict[str, Read] = {
    "from": values.a_name,
    "start": series.start,
    "lasts": series.lasts,
    "tempo": series.tempo,
    "dynamics": series.dynamics,
    "band": series.band,
    "stretch": series.stretch,
    "mirror": _one_of(("yes", "no"), "an answer"),
    "order": series.order,
    "keep": series.keep,
    "times": series.count,
    "fingerings": _FINGERINGS,
    "meter": values.meter,
    "instruction": values.text,
}
IN_BLOCK = {"gesture": GESTURE, "passage": PASSAGE, "exercises": EXERCISES}
EVERY_KEY = frozenset(SETTINGS) | frozenset(GESTURE) | frozenset(PASSAGE) | frozenset(EXERCISES)
REPEATABLE = frozenset({"allow"})


def pattern(key: str) -> re.Pattern[str]:
    """How the value of `key` falls into tokens."""
    return {"fingering": tokens.FINGERS, "paper": tokens.SIZES}.get(key, tokens.PLAIN)
