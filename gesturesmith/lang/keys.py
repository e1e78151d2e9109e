"""Which keys belong where, what reads the value of each, and how the language page describes it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import field

from gesturesmith.kinds import BlockKind
from gesturesmith.lang import boxes, meanings, playing, series, tokens, values
from gesturesmith.lang.contour import contour
from gesturesmith.lang.nodes import Value, Word
from gesturesmith.lang.play import play
from gesturesmith.lang.reader import Reader
from gesturesmith.lang.words import (
    ACCIDENTALS,
    CHOICES,
    FINGERINGS,
    HEIGHT_LOOKS,
    MUTES,
    NOTEHEADS,
    ORDERS,
    PACES,
    PAPERS,
    PITCHES,
    PLAYERS,
    REGISTERS,
    STROKES,
    TEMPO_BPM,
    WORDINGS,
    WORDS_ON_PAGE,
    YES_NO,
)
from gesturesmith.values import frozen

type Read = Callable[[Reader], Value]


def _one_of(options: tuple[str, ...], what: str) -> Read:
    def read(reader: Reader) -> Word:
        value = reader.choice(options, what)
        reader.finish("one word")
        return value

    return read


_FINGERINGS = _one_of(FINGERINGS, "a way to print fingerings")


@frozen
class Key:
    """One key of the language.

    read         what reads its value
    value        what may follow the colon, as the language page describes it (Markdown)
    missing      what applies without the key
    repeatable   whether it may appear more than once
    words        the fixed words of its value, with what each means; not those of contours and of `play`
    names        the kinds of block that its value may name
    """

    read: Read
    value: str
    missing: str
    repeatable: bool = False
    words: Mapping[str, str] = field(default_factory=dict)
    names: tuple[BlockKind, ...] = ()


def _any_of(words: tuple[str, ...]) -> str:
    """The choices, as they are written."""
    return ", ".join(f"`{word}`" for word in words)


_LEVELS = {**meanings.LEVELS, **meanings.HAIRPINS}
_LENGTHS = meanings.LENGTHS
_TEMPO = f"beats per minute, {TEMPO_BPM[0]} to {TEMPO_BPM[1]}"

SETTINGS: dict[str, Key] = {
    "language": Key(values.language, "`1`", "1"),
    "instrument": Key(
        values.instrument,
        "name of an instrument, or the quoted path of a profile; `horn` is the double horn in F/B-flat, `trumpet` "
        "the B-flat trumpet, `trombone` the tenor trombone, `tuba` the tuba in C",
        "error",
    ),
    "pitches": Key(
        _one_of(PITCHES, "a way to read pitches"),
        " or ".join(f"`{word}`" for word in PITCHES),
        "an error if the instrument transposes; otherwise it makes no difference",
        words=meanings.PITCHES,
    ),
    "tempo": Key(
        values.tempo,
        f'{_TEMPO}, optionally after a quoted text (`"Slow, distant" 72`). `dotted quarter = 60` (also '
        "`half`, `quarter`, `eighth`) names the beat: everything in the file that counts beats counts this note",
        "60 quarters",
        words=meanings.BEATS,
    ),
    "title": Key(values.title, "text, in quotes or as plain words", "none"),
    "subtitle": Key(values.title, "text, in quotes or as plain words", "none"),
    "composer": Key(values.title, "text, in quotes or as plain words", "none"),
    "part": Key(
        values.title, "text, in quotes or as plain words", "the instrument's name in the language of the page"
    ),
    "wording": Key(
        values.wording,
        f"{_any_of(WORDINGS)}, or two with a comma (both printed): the language of the standard texts on the page",
        "`en`",
        words=meanings.WORDINGS,
    ),
    "words": Key(
        _one_of(WORDS_ON_PAGE, "a choice of words"),
        "`international`, `language` (the first of `wording`): the words of techniques above the staff, such as "
        "`air` or `Luft`, and those that end them; signs, `gliss.`, `ord.` and the like are the same in both",
        "`international`",
        words=meanings.WORDS_ON_PAGE,
    ),
    "meter": Key(
        values.meter,
        "`4/4` and the like, or `free`: how passages are barred; the beat is that of `tempo` in every meter",
        "`free`",
        words=meanings.METERS,
    ),
    "heights": Key(
        _one_of(HEIGHT_LOOKS, "a way to draw heights"),
        "`auto`, `band` (grey band on the normal staff), `lines` (three-line staff) for heights without pitch",
        "`auto`: lines for named registers, band for pitches",
        words=meanings.HEIGHT_LOOKS,
    ),
    "accidentals": Key(
        _one_of(ACCIDENTALS, "a form of quarter-tone accidentals"),
        f"{' or '.join(f'`{word}`' for word in ACCIDENTALS)}: the forms of quarter-tone accidentals",
        "`stein`",
        words=meanings.ACCIDENTALS,
    ),
    "fingerings": Key(
        _FINGERINGS,
        "`needed` (only where the player would not use the standard one: quarter tones, a held tube, the "
        "composer's own), `all`, `none`",
        "`needed`",
        words=meanings.FINGERINGS,
    ),
    "paper": Key(
        values.paper,
        f"{_any_of(PAPERS)}, or `WIDTH x HEIGHT mm`",
        "`a4`",
        words=meanings.PAPERS,
    ),
    "staff": Key(
        values.staff,
        "staff height in mm, `6`",
        "7 mm",
        words=meanings.MILLIMETRES,
    ),
}
GESTURE: dict[str, Key] = {
    "technique": Key(values.names, "one or more names joined by `+`", "`ordinary`"),
    "contour": Key(contour, "points and the lines between them, `C5 -- D5@2, G4`", "error"),
    "band": Key(
        values.band,
        f"a register name of the instrument ({_any_of(REGISTERS)}) or `PITCH..PITCH`",
        "none; an error if there are heights without pitch",
        words=meanings.REGISTERS,
    ),
    "lasts": Key(
        values.lasts,
        "`4 beats`, `1 beat`, `3/2 beats`, `2 bars` of the file's `meter`, or `2.5 s`; not if "
        "the points have lengths, `C5 for 3/2`",
        "one beat a point; with times, at least the last `@` plus a beat for each untimed point after it, plus one "
        "if the last point has a slot of its own",
        words=_LENGTHS,
    ),
    "dynamics": Key(
        playing.dynamics,
        "levels `n` (niente), `ppp`..`fff`, `sf sfz sffz fp sfp rfz`, joined by `<` and `>`; a level may have "
        "a time, `f@3`; along `<` and `>` the checker assumes that the level changes evenly; `fp` continues as "
        "`p`. `fp each`, `sfz each`: this accent at every attack",
        "checked as `mf`, not printed",
        words=_LEVELS,
    ),
    "attacks": Key(
        playing.attacks,
        "the number of tongued attacks; `8 accelerating`, `8 slowing`. A single note, or a line from it, has them "
        "all, spaced evenly or by the shape. If there are several notes separated by `,`, each is one attack: "
        "their number must be that of the attacks, and a shape spaces them (none may then have an `@`). Anything "
        "else is an error",
        "one for the first point and one for each after `,`",
        words=meanings.SHAPES,
    ),
    "fingering": Key(
        playing.fingering,
        "`auto`, `held` (one tube for the whole gesture), or side and valves, either one for all points or one for "
        "each, separated by commas: `F 1-2-3`, `Bb 0`, without a side `1-2` (slide: position `3`; `T 2` with the "
        "trigger, `TT 2` with both, on the contrabass trombone `Eb 2`, `Bb 2`, `Ab 2`; `short 2` a little in, "
        "`long 3` a little out); `auto` among them leaves that point to the player",
        "`auto`",
        words=meanings.FINGERS,
    ),
    "mute": Key(
        values.mute,
        f"{_any_of(MUTES)}. A mute that is named is in, with or without `muted` in `technique`; if points turn "
        "`as muted`, they say when",
        "`straight` for `muted`",
        words=meanings.MUTES,
    ),
    "trill": Key(
        playing.trill,
        "the other note of a trill or shake: `half`, `whole`, an interval such as `m3`, or the note above by name. "
        "If neither `technique` nor a point names a trill, this makes a valve trill, or without valves a lip trill",
        "the second that is in tune; for lip trills the next harmonic",
        words=meanings.SECONDS,
    ),
    "tremolo": Key(
        playing.trill,
        "the other note of a tremolo, above or below, or its interval above; if neither `technique` nor a point "
        "names a tremolo, this makes one",
        "a minor third above",
        words=meanings.SECONDS,
    ),
    "speed": Key(
        playing.speed,
        "how fast the waves of a vibrato, trill, shake, tremolo or wah-wah are: `slow`, `medium`, `fast`, or "
        "a number "
        "of waves a second, joined by `<` (faster) and `>` as in `dynamics`: `slow < fast@3 > slow`. Drawn as"
        " a wave, with the numbers beside it",
        "as the player likes, not printed",
        words={**meanings.SPEEDS, "<": "faster", ">": "slower"},
    ),
    "width": Key(
        playing.width,
        "the same for how wide a vibrato or shake is: `narrow`, `medium`, `wide`",
        "as the player likes, not printed",
        words={**meanings.WIDTHS, "<": "wider", ">": "narrower"},
    ),
    "sing": Key(contour, "a second contour, sung, for `multiphonic`", "the technique's standard request"),
    "fallback": Key(
        values.one_technique,
        "a technique to use if the one asked for is refused (the gesture is then *with care*)",
        "none",
    ),
    "text": Key(values.text, "quoted text above the staff", "none"),
    "footnote": Key(values.text, "quoted text, replaces the technique's standard wording", "the standard wording"),
    "note": Key(
        values.text,
        "quoted text, added to the standard wording, or to the `footnote` if there is one",
        "none",
    ),
    "notehead": Key(
        _one_of(NOTEHEADS, "a notehead"),
        _any_of(NOTEHEADS),
        "`auto`: x if the pitch is approximate",
        words=meanings.NOTEHEADS,
    ),
    "allow": Key(
        values.allow,
        '`RULE "reason"`: silences a caution; turns a refusal into a caution that shows the reason (but not for '
        "what no tube or range can give). An `allow` that matches nothing is reported",
        "none",
        repeatable=True,
    ),
}
TRANSLATED = ("text", "footnote", "note")  # texts that may be given in each language of the pages
GESTURE |= {
    f"{key}.{language}": Key(
        values.text,
        f"the `{key}` on {meanings.WORDINGS[language]} pages, in quotes",
        f"the `{key}` without a language",
    )
    for key in TRANSLATED
    for language in WORDINGS
}
PASSAGE: dict[str, Key] = {
    "play": Key(
        play,
        "a list separated by commas: the name of a gesture, `NAME up N` or `NAME down N` (semitones, by the "
        "interval with the plainest names) or `up M2`, `down P5` (intervals, keeping the spelling), `rest N`, a "
        "pitch `C4 for N` with point words (also `F 0:11 for 2`, `7/4 of C4 for 1`), the name of another passage; "
        "and between them what changes, below",
        "error",
        names=("gesture", "passage", "box"),
    ),
    "repeat": Key(
        series.count, "how often it is played: `2` prints repeat signs, or writes it out if pitches change", "1"
    ),
    "tempo": Key(
        values.tempo,
        "as in the settings, for this passage",
        "that of the file",
        words=meanings.BEATS,
    ),
    "meter": Key(
        values.meter,
        "as in the settings, for this passage",
        "that of the file",
        words=meanings.METERS,
    ),
    "bar": Key(
        series.bar_number,
        "the number of its first bar, `25`; the bars are then numbered at the beginning of each line",
        "no bar numbers",
    ),
    "pickup": Key(
        series.pickup,
        "the length of an incomplete first bar, `1 beat`; bar numbers count from the first whole bar",
        "begins with a whole bar",
        words={"beats": _LENGTHS["beats"]},
    ),
    "key": Key(
        values.key,
        "a key signature, `Eb major`, `F# minor` or `none`, read as `pitches` says, and of a file with parts the "
        "sounding one, transposed for each part",
        "no key signature: accidentals at the notes",
        words=meanings.MODES,
    ),
}
EXERCISES: dict[str, Key] = {
    "from": Key(
        values.a_name,
        "the gesture to vary",
        "error",
        names=("gesture",),
    ),
    "start": Key(
        series.start,
        "first pitches: the whole gesture is transposed to start there. A list, `G4, A4`, or a range in semitones, "
        "`G4..C5 by 1`",
        "as in the gesture",
        words=meanings.STEPS,
    ),
    "lasts": Key(
        series.lasts,
        "lengths: a list, `8, 6, 4 beats`, or a range; times within the gesture scale",
        "as in the gesture",
        words={**_LENGTHS, **meanings.STEPS},
    ),
    "tempo": Key(
        series.tempo,
        f"{_TEMPO}: a list, `60, 72`, or a range, `60..84 by 6`",
        "that of the file",
        words=meanings.STEPS,
    ),
    "dynamics": Key(
        series.dynamics,
        "a list of levels",
        "as in the gesture",
        words=_LEVELS,
    ),
    "band": Key(
        series.band,
        "a list of registers or of bands such as `G4..F5`",
        "as in the gesture",
        words=meanings.REGISTERS,
    ),
    "stretch": Key(
        series.stretch,
        "factors for all intervals from the first pitch, `1/2, 1, 3/2`: a list or a range",
        "as in the gesture",
        words=meanings.STEPS,
    ),
    "mirror": Key(
        _one_of(YES_NO, "an answer"),
        "`yes` adds each variant inverted about its first pitch; `no`",
        "`no`",
        words=meanings.YES_NO,
    ),
    "graces": Key(
        series.graces,
        "how many of the grace notes at each note are played, those next to it first: `0, 1, 2`, a list or a range",
        "as in the gesture",
    ),
    "strokes": Key(
        series.strokes,
        f"in what the repeated notes are repeated, a list: {_any_of(STROKES)}",
        "as in the gesture",
        words=meanings.STROKES,
    ),
    "order": Key(
        series.order,
        f"{_any_of(ORDERS)}; `mixed` has an easier and a harder line in turn",
        "`as listed`",
        words=meanings.ORDERS,
    ),
    "keep": Key(
        series.keep,
        "a number such as `12`, `all`, or `one page`: as many lines as fill a page",
        "`all`",
        words=meanings.KEEPS,
    ),
    "times": Key(series.count, "repeats of each line, `2`", "1"),
    "fingerings": Key(
        _FINGERINGS,
        "as in the settings",
        "that of the file",
        words=meanings.FINGERINGS,
    ),
    "meter": Key(
        values.meter,
        "as in the settings; an error if lines are in seconds, which have no bars",
        "4/4",
        words=meanings.METERS,
    ),
    "instruction": Key(values.text, "quoted text at the head of the sheet", "none"),
}
PART: dict[str, Key] = {
    "instrument": Key(values.instrument, "as in the settings", "that of the file; else an error"),
    "pitches": Key(
        _one_of(PITCHES, "a way to read pitches"),
        "as in the settings: how the pitches of its lines, and of gestures where it plays them, are read",
        "that of the file",
        words=meanings.PITCHES,
    ),
    "players": Key(
        series.players,
        f"`2`: two players read one line. {_any_of(PLAYERS)} after an item say who plays from there on (`a2` from "
        "the start), and `C5 / E4 for 2` or `call / answer` divides them, the first before the `/`; "
        "a length and a level at the end are for both",
        "`1`",
    ),
    "short": Key(
        values.text, "quoted text: its name in the score from the second system on", "that of the instrument"
    ),
    "key": Key(
        values.no_key,
        "`none`: without key signatures, whatever the passages say, as parts for horn and trumpet are by tradition",
        "those of the passages",
        words={"none": meanings.MODES["none"]},
    ),
    "wording": Key(
        values.wording,
        "as in the settings, for the pages of this part",
        "that of the file",
        words=meanings.WORDINGS,
    ),
    "fingerings": Key(
        _FINGERINGS,
        "as in the settings",
        "that of the file",
        words=meanings.FINGERINGS,
    ),
}
LINE = Key(
    play,
    "of a passage, under the name of a part: what it plays, a list as in `play`",
    "it rests",
    names=("gesture", "passage", "box"),
)
BOX: dict[str, Key] = {
    "play": Key(
        play,
        "what is repeated: a list as in a passage, of gestures, pitches and rests. Several `play` lines are as "
        "many boxes to choose from",
        "error",
        repeatable=True,
        names=("gesture",),
    ),
    "lasts": Key(
        boxes.length,
        '`20 s`, `8 beats`, or `until "the oboe enters"`, optionally `until "…" within 30 s`; in bars only beats',
        "error",
        words={**_LENGTHS, **meanings.CUES},
    ),
    "pace": Key(
        series.pace,
        _any_of(PACES),
        "as written",
        words=meanings.PACES,
    ),
    "choose": Key(
        series.choose,
        f"{_any_of(CHOICES)}: the player repeats one of the boxes, or goes from one to another freely",
        "error if there are several boxes",
        words=meanings.CHOICES,
    ),
}
IN_BLOCK = {"gesture": GESTURE, "passage": PASSAGE, "exercises": EXERCISES, "part": PART, "box": BOX}
EVERY_KEY = frozenset(key for keys in (SETTINGS, *IN_BLOCK.values()) for key in keys)


def pattern(key: str) -> re.Pattern[str]:
    """The pattern that splits the value of `key` into tokens."""
    return {"fingering": tokens.FINGERS, "paper": tokens.SIZES}.get(key, tokens.PLAIN)
