"""The fixed words of the language, and what people type instead.

Names of techniques, registers and rules are not here: the reader accepts any name for them.
"""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

from gesturesmith.kinds import (
    Accidentals,
    AskedHead,
    AttackShape,
    BlockKind,
    Choose,
    Extreme,
    Fingerings,
    Growth,
    HeightLook,
    LineKind,
    Mute,
    Order,
    Pace,
    Pitches,
    Players,
    Shade,
    Speed,
    Strokes,
    Unit,
    Width,
    WordsOnPage,
)
from gesturesmith.source import as_said

HEIGHTS = {"low": 0, "mid": 50, "high": 100}
EXTREMES: tuple[Extreme, ...] = ("highest", "lowest")
REGISTERS = ("low", "middle", "high", "top")
MARKS = ("accent", "staccato", "tenuto", "marcato", "fermata", "breath", "inhale", "exhale")
COVERS = ("open", "closed", "half-closed")  # what covers the bell or the mute, at a point
LEVELS = (
    "n", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "sf", "sfz", "sffz", "fp", "sfp", "rfz",
)  # fmt: skip
ACCENTS = LEVELS[LEVELS.index("sf") :]  # an accent, not a lasting level
GRACE = "grace"
STROKES: tuple[Strokes, ...] = ("eighths", "sixteenths", "thirty-seconds", "unmeasured")
POINT_WORDS = frozenset((*MARKS, *COVERS, *LEVELS, GRACE, *STROKES))
EACH = "each"
FERMATA = "fermata"
GRACE_MARKS = ("accent", "staccato", "tenuto", "marcato")
SILENT_MARKS = ("fermata", "breath", "inhale", "exhale")
MAX_SYLLABLE = 24  # letters that fit under a note
LINES: dict[str, LineKind] = {
    "--": "straight", "–": "straight", "—": "straight", "~~": "wavy", "::": "broken", "..": "dotted",
    "->": "arrow", "–>": "arrow", "—>": "arrow", "→": "arrow", "__": "slur", ",": "none",
}  # fmt: skip
SIGNS: dict[LineKind, str] = {
    "straight": "--",
    "wavy": "~~",
    "broken": "::",
    "dotted": "..",
    "arrow": "->",
    "slur": "__",
    "none": ",",
}
# How each line is engraved and what it asks for, as the language page has it.
LINE_MEANINGS: dict[LineKind, str] = {
    "straight": "a straight line: an even slide",
    "wavy": "a wavy line that follows the contour through its points; `~~ growing`, `~~ fading`",
    "broken": "a broken line: a movement that is only suggested",
    "dotted": "a dotted line",
    "arrow": "like `--`, with an arrow at its end",
    "slur": (
        "a slur: no slide, no new attack; for time and note values it counts as `,` (a full note with its own slot)"
    ),
    "none": "no line: a separate attack",
}
GROWTH: tuple[Growth, ...] = ("growing", "fading")
MUTES = get_args(Mute)
# A head in parentheses is what a technique looks like, whose text explains it.
NOTEHEADS: tuple[AskedHead, ...] = tuple(head for head in get_args(AskedHead) if head != "ghost")
PITCHES: tuple[Pitches, ...] = get_args(Pitches)
HEIGHT_LOOKS: tuple[HeightLook, ...] = get_args(HeightLook)
ACCIDENTALS: tuple[Accidentals, ...] = get_args(Accidentals)
FINGERINGS: tuple[Fingerings, ...] = get_args(Fingerings)
WORDS_ON_PAGE: tuple[WordsOnPage, ...] = get_args(WordsOnPage)
WORDINGS = ("en", "de", "fr", "it")
PAPERS = ("a4", "letter")
SIDES = ("F", "Bb", "Eb", "Ab", "T", "TT")
SHADES: tuple[Shade, ...] = ("short", "long")
SECONDS = {"half": "m2", "whole": "M2"}  # what a trill goes to, by the usual words
SPEEDS: tuple[Speed, ...] = get_args(Speed)
WIDTHS: tuple[Width, ...] = get_args(Width)
WAVES_PER_SECOND = (Fraction(1, 2), 20)  # more is a tone of its own
SHAPES: tuple[AttackShape, ...] = ("accelerating", "slowing")
PLAYERS: tuple[Players, ...] = ("a2", "first", "second")
YES_NO = ("yes", "no")
ORDERS: tuple[Order, ...] = get_args(Order)
PACES: tuple[Pace, ...] = ("as fast as possible", "irregular")
CHOICES: tuple[Choose, ...] = ("one", "any order")
BLOCKS: tuple[BlockKind, ...] = get_args(BlockKind)
RESERVED = frozenset((*HEIGHTS, *EXTREMES, *REGISTERS, "r", "rest", "up", "down", "for", "as"))
UNITS: dict[str, Unit] = {"beat": "beats", "beats": "beats", "bar": "bars", "bars": "bars", "s": "s", "mm": "mm"}
PLAIN_TEXTS = ("title", "subtitle", "composer", "part")  # settings that need no quotes
AD_LIB = "ad lib."  # above a point, in every language
AND = ("and", "und", "et", "e", "ed")
BEATS = {
    "half": Fraction(2),
    "quarter": Fraction(1),
    "eighth": Fraction(1, 2),
}  # notes a tempo may name, in quarters
TEMPO_BPM = (20, 300)  # see the language page
PAPER_MM = (50, 2000)  # smaller holds no system, larger fits no printer
STAFF_MM = (1, 50)

# What people type from habit or from another language, and the word they need.
MEANT = {
    "semitone": "half", "half-tone": "half", "halftone": "half", "minor": "half", "tone": "whole", "major": "whole",
    "rate": "speed", "bpm": "tempo", "speed": "tempo", "metronome": "tempo",
    "duration": "lasts", "length": "lasts", "dur": "lasts", "last": "lasts", "time": "lasts", "beats": "lasts",
    "dynamic": "dynamics", "loudness": "dynamics", "volume": "dynamics", "hairpin": "dynamics",
    "points": "contour", "notes": "contour", "shape": "contour", "line": "contour", "pitch": "contour",
    "range": "band", "register": "band", "tessitura": "band",
    "techniques": "technique", "tech": "technique", "effect": "technique",
    "fingers": "fingering", "valves": "fingering", "position": "fingering", "slide": "fingering",
    "metre": "meter", "time-signature": "meter", "author": "composer", "by": "composer", "name": "title",
    "lang": "language", "transposition": "pitches", "key": "pitches", "repeats": "repeat",
    "comment": "note", "remark": "note", "except": "allow", "ignore": "allow", "plays": "play",
    "head": "notehead", "noteheads": "notehead", "head-shape": "notehead", "reading": "instruction",
    "exercise": "exercises", "exercice": "exercises", "phrase": "passage", "section": "passage",
    "motif": "gesture", "motive": "gesture", "figure": "gesture", "transposed": "written", "concert": "sounding",
    "middle": "mid", "medium": "mid", "top": "high", "bottom": "low", "max": "highest", "min": "lowest",
    "niente": "n", "stacc": "staccato", "ten": "tenuto", "marc": "marcato", "acc": "accent", "caesura": "breath",
    "half-open": "half-closed", "half": "half-closed", "close": "closed", "o": "open",
    "inspire": "inhale", "expire": "exhale", "syllable": "say", "lyric": "say", "lyrics": "say",
    "pause": "fermata", "ffff": "fff", "pppp": "ppp", "fz": "sfz", "sforzando": "sfz", "rf": "rfz",
    "cresc": "<", "crescendo": "<", "dim": ">", "decresc": ">", "diminuendo": ">", "decrescendo": ">",
    "sec": "s", "secs": "s", "second": "s", "seconds": "s", "ms": "s", "min.": "s",
    "quarter": "beats", "quarters": "beats", "crotchet": "beats", "crotchets": "beats", "bt": "beats",
    "cm": "mm", "in": "mm", "inch": "mm", "percent": "%",
    "accel": "accelerating", "accelerando": "accelerating", "faster": "accelerating",
    "rit": "slowing", "ritardando": "slowing", "rall": "slowing", "slower": "slowing",
    "quavers": "eighths", "semiquavers": "sixteenths", "demisemiquavers": "thirty-seconds",
    "tremolo": "unmeasured", "trem": "unmeasured", "repeated": "sixteenths",
    "acciaccatura": GRACE, "appoggiatura": GRACE, "ornament": GRACE, "grace-note": GRACE,
    "cresc.": "growing", "english": "en", "german": "de", "deutsch": "de", "french": "fr", "italian": "it",
    "cross": "x", "plain": "normal", "default": "auto", "stop": "stopping", "true": "yes", "false": "no",
    "on": "yes", "off": "no", "open": "0", "b": "Bb", "B": "Bb", "t": "T",
    "easy first": "easiest first", "hard first": "hardest first", "random": "mixed", "shuffled": "mixed",
    "listed": "as listed", "easiest": "easiest first", "hardest": "hardest first", "a page": "one page",
}  # fmt: skip


def trade(word: str, options: tuple[str, ...]) -> tuple[str, ...]:
    """Those of `options` with this name in any language."""
    from gesturesmith.lang.trade_words import TRADE_WORDS

    return tuple(w for w in TRADE_WORDS.get(as_said(word), ()) if w in options)


def nearest(word: str, options: tuple[str, ...], cutoff: float = 0.6) -> tuple[str, ...]:
    """At most three of `options` that `word` may have been meant as, the likeliest first.

    cutoff   the required similarity, 0 to 1, unless the word is one that people are known to type
    """
    if len(word) > 40:
        return ()
    import difflib  # a clean file never needs it

    low = word.lower()
    meant = MEANT.get(word) or MEANT.get(low) or ""
    found = [meant] if meant in options else []
    found += trade(word, options)
    by_low = {o.lower(): o for o in options}
    found += [by_low[m] for m in difflib.get_close_matches(low, list(by_low), 3, cutoff)]
    return tuple(dict.fromkeys(w for w in found if w))[:3]
