"""Fixed sets of words as types, so that the type checker finds a misspelt one.

Each is defined here once, whoever uses it. `get_args` gives its words in order.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

# The language
BlockKind = Literal["gesture", "passage", "exercises", "part", "box"]
Pace = Literal["", "as fast as possible", "irregular"]  # of what a box repeats; "": as written
Choose = Literal["", "one", "any order"]  # among the cells of a box
LineKind = Literal["straight", "wavy", "broken", "dotted", "arrow", "slur", "none"]
Growth = Literal["", "growing", "fading"]
AttackShape = Literal["", "accelerating", "slowing"]  # "": even
Strokes = Literal["", "eighths", "sixteenths", "thirty-seconds", "unmeasured"]  # repeats of one note
Speed = Literal["slow", "medium", "fast"]  # of the waves of a vibrato, trill or shake
Width = Literal["narrow", "medium", "wide"]
FingeringMode = Literal["auto", "held", "given"]
Join = Literal["", "<", ">"]  # from one level to the next
Level = Literal["n", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff"]  # dynamic levels, the softest first
Players = Literal["", "a2", "first", "second"]  # which of two players
Direction = Literal["", "up", "down"]
TempoTurn = Literal["accelerando", "ritardando"]
Unit = Literal["", "beats", "bars", "s", "mm", "%"]
Shade = Literal["", "short", "long"]
# In order of application.
VariedKey = Literal["start", "stretch", "mirror", "band", "lasts", "tempo", "dynamics", "graces", "strokes"]
Keep = Literal["all", "one page"]  # of the lines of a sheet, where no number is given
Pitches = Literal["written", "sounding"]
HeightLook = Literal["auto", "band", "lines"]
Accidentals = Literal["stein", "arrows"]
Fingerings = Literal["needed", "all", "none"]
WordsOnPage = Literal["international", "language"]
Order = Literal["easiest first", "hardest first", "as listed", "mixed"]

LineRole = Literal["blank", "comment", "heading", "entry", "more", "stray"]
TokenKind = Literal[
    "note", "word", "percent", "number", "at", "line", "sign", "text", "open", "hash", "bad", "valves",
    "harmonic", "paper", "end",
]  # fmt: skip

# Points of a contour
PointKind = Literal["pitch", "height", "extreme", "silence"]
Reached = Literal["attack", "slur", "line", "silence"]
Extreme = Literal["", "highest", "lowest"]

Breath = Literal["", "in", "out"]  # the direction of the air, if given

# Techniques; the layers are in the order in which a player thinks of them
Layer = Literal[
    "none", "motion", "edge-in", "edge-off", "valves", "bell", "cover", "stem", "tone", "tongue", "voice", "lip",
    "attack",
]  # fmt: skip
# The parts of player, instrument and note that a technique uses; each does one thing at a time
Part = Literal[
    "pitch", "beginning", "end", "stroke", "tonguing", "valves", "fingering", "slide", "tube", "bell", "hand",
    "stem", "mouthpiece", "breath", "lips", "jaw", "tongue", "throat", "tone", "trill", "harmonics",
]  # fmt: skip
JoinVerdict = Literal["goes", "with care", "not"]
Path = Literal[
    "none", "lip", "hand", "hand-out", "partials", "valves", "steps", "slide", "against", "trigger", "half-valve"
]
Pitched = Literal["exact", "about", "none"]
Needs = Literal["", "hand", "valves", "slide", "trigger", "valve-slide"]
ToneNeed = Literal["", "none", "needs"]
BellHand = Literal["", "half", "stopped"]
Cover = Literal["", "half", "closed"]  # before the bell or the opening of a mute
Bell = Literal["", "half", "stopped", "muted"]  # what closes it; a mute keeps the hand out
Harmonic = Literal["", "first", "between"]  # that a technique stands on: any, the first, none
Trill = Literal["", "same", "above", "other", "neighbour"]

# How a technique looks
AskedHead = Literal["auto", "x", "normal", "diamond", "triangle", "slash", "ghost"]  # as named in files and looks
HeadShape = Literal["normal", "x", "diamond", "slash", "ghost", "triangle-up", "triangle-down"]
ScriptSign = Literal["stopped", "half-stopped", "open", "double-dots", "triple-dots", "beyond-up", "beyond-down"]
EdgeShape = Literal[
    "scoop", "plop", "rip", "lift", "smear", "doit", "short-doit", "long-doit", "doit-at-once", "fall",
    "short-fall", "long-fall", "fall-at-once", "spill", "flip", "jazz-turn",
]  # fmt: skip
HandState = Literal["open", "half-stopped", "stopped"]

# The refused side of a limit
Side = Literal["above", "below", "louder", "softer", "outside", "none"]

# Instruments and how they are played
Tuning = Literal["alone", "2-3", "1-3"]  # what the third valve slide is tuned for
Mute = Literal["straight", "stopping", "cup", "harmon", "plunger", "bucket", "practice", "glass", "cloth"]
InstrumentKind = Literal["valves", "slide"]
Means = Literal["valves", "slide", "single"]
Correction = Literal["", "lip", "slide", "hand"]
Tonguing = Literal["", "double"]  # "": single tonguing is fast enough, or the composer names the tonguing

# What is written on a staff
Clef = Literal["treble", "alto", "tenor", "bass"]
StaffClef = Literal["", Clef]  # "": none, or the one in force

# Sound
Voice = Literal["played", "second", "sung", "spoken"]
Onset = Literal["attack", "split", "slur", "continued"]
WaveKind = Literal["vibrato", "trill", "timbre"]
Noise = Literal["", "slap", "kiss", "click", "pop", "tap"]
Colour = Literal["", "brassy", "bell-raised", "half-valve", "buzz"]

# Beside the staff in a score read from elsewhere
NotatedDirection = Literal["words", "level", "crescendo", "diminuendo", "wedge-end", "mute"]

# The units of what makes a gesture hard, as they follow a number
DemandUnit = Literal[
    "semitones",
    "levels",
    "L",
    "s",
    "ms",
    "times plain playing",
    "a second",
    "periods",
    "cents",
    "notes",
    "techniques",
    "of 1",
]

# Outputs, and how LilyPond ended: "" well
Listed = Literal["techniques", "instruments", "rules"]
ItemKind = Literal["page", "snippet", "picture", "score", "sketch", "enclosed"]
Ended = Literal["", "failed", "timeout", "stopped", "full", "flood"]
LogLevel = Literal["fatal error", "error", "warning", "programming error"]
Backend = Literal["", "cairo", "svg", "ps"]  # of LilyPond; "": the best it has
SandboxMode = Literal["auto", "always", "never"]

# Findings
SeverityWord = Literal["advice", "caution", "refused"]


def one_of[W: str](words: Iterable[W], text: str) -> W:
    """`text`, typed as one of `words`. Raises StopIteration if it is none of them."""
    return next(word for word in words if word == text)
