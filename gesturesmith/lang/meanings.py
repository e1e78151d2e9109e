"""What the fixed words of the language mean, one line each, and the forms of points and of entries of `play`.

The language page prints the forms, and help at the cursor shows both: what is explained is explained here.
"""

from __future__ import annotations

from gesturesmith.lang.words import LINE_MEANINGS, LINES
from gesturesmith.values import frozen

type Meanings = dict[str, str]

PITCHES: Meanings = {
    "written": "pitches are those of the part, as the player reads them",
    "sounding": "pitches are those heard",
}
HEIGHT_LOOKS: Meanings = {
    "auto": "lines for named registers, a band for pitches",
    "band": "a grey band on the normal staff",
    "lines": "a staff of three lines",
}
ACCIDENTALS: Meanings = {
    "stein": "quarter tones as half a sharp and a reversed flat",
    "arrows": "quarter tones as arrows on accidentals",
}
FINGERINGS: Meanings = {
    "needed": "only where the player would not use the standard one",
    "all": "at every note",
    "none": "none printed",
}
WORDS_ON_PAGE: Meanings = {
    "international": "as players of every language read them: English, and Italian abbreviations",
    "language": "in the language of the page, where its players have their own",
}
WORDINGS: Meanings = {"en": "English", "de": "German", "fr": "French", "it": "Italian"}
PAPERS: Meanings = {"a4": "210 x 297 mm", "letter": "8.5 x 11 inches"}
REGISTERS: Meanings = {
    "low": "the low register of the instrument",
    "middle": "its middle register",
    "high": "its high register",
    "top": "its highest register",
}
HEIGHTS: Meanings = {
    "low": "the bottom of the band",
    "mid": "the middle of the band",
    "high": "the top of the band",
    "highest": "as high as the player can",
    "lowest": "as low as the player can",
}
LEVELS: Meanings = {
    "n": "niente: from or to nothing",
    "ppp": "pianississimo",
    "pp": "pianissimo",
    "p": "piano",
    "mp": "mezzopiano",
    "mf": "mezzoforte",
    "f": "forte",
    "ff": "fortissimo",
    "fff": "fortississimo",
    "sf": "sforzato, an accent",
    "sfz": "sforzando, an accent",
    "sffz": "a stronger sforzando",
    "fp": "forte, at once piano",
    "sfp": "sforzando, at once piano",
    "rfz": "rinforzando, an accent",
}
HAIRPINS: Meanings = {
    "<": "louder until the next level",
    ">": "softer until the next level",
    "each": "this accent at every attack",
}
MARKS: Meanings = {
    "accent": "an accent",
    "staccato": "short",
    "tenuto": "held for its whole length",
    "marcato": "a strong accent",
    "fermata": "held longer",
    "breath": "a breath after it",
    "inhale": "the air goes in",
    "exhale": "the air goes out",
}
COVERS: Meanings = {
    "open": "nothing covers the bell or the mute: o",
    "closed": "the bell or the mute is covered: +",
    "half-closed": "it is half covered",
}
STROKES: Meanings = {
    "eighths": "the note is repeated in eighths",
    "sixteenths": "the note is repeated in sixteenths",
    "thirty-seconds": "the note is repeated in thirty-seconds",
    "unmeasured": "the note is repeated as fast as possible",
}
GRACE: Meanings = {"grace": "a grace note of the note after it"}
GROWTH: Meanings = {"growing": "the wave gets wider", "fading": "the wave gets narrower"}
POINT_WORDS: Meanings = {**MARKS, **COVERS, **LEVELS, **GRACE, **STROKES}
MUTES: Meanings = {
    "straight": "straight mute",
    "stopping": "stopping mute",
    "cup": "cup mute",
    "harmon": "harmon mute, with a stem",
    "plunger": "a rubber plunger before the bell",
    "bucket": "bucket mute",
    "practice": "practice mute",
    "glass": "a glass before the bell",
    "cloth": "a cloth over the bell",
}
NOTEHEADS: Meanings = {
    "auto": "x if the pitch is approximate, else an ordinary one",
    "x": "an x",
    "normal": "an ordinary head",
    "diamond": "a diamond",
    "triangle": "a triangle",
    "slash": "a slash",
}
SECONDS: Meanings = {"half": "a semitone above", "whole": "a whole tone above"}
SPEEDS: Meanings = {"slow": "slow waves", "medium": "waves of medium speed", "fast": "fast waves"}
WIDTHS: Meanings = {"narrow": "narrow waves", "medium": "waves of medium width", "wide": "wide waves"}
SHAPES: Meanings = {"accelerating": "closer and closer together", "slowing": "further and further apart"}
FINGERS: Meanings = {
    "auto": "left to the player",
    "held": "one tube for the whole gesture",
    "F": "the F side",
    "Bb": "the B-flat side",
    "Eb": "the E-flat side",
    "Ab": "the A-flat side",
    "T": "with the trigger",
    "TT": "with both triggers",
    "short": "the slide a little in",
    "long": "the slide a little out",
}
YES_NO: Meanings = {"yes": "each variant inverted as well", "no": "as it is"}
ORDERS: Meanings = {
    "easiest first": "by difficulty, rising",
    "hardest first": "by difficulty, falling",
    "as listed": "in the order of the lists",
    "mixed": "an easier and a harder line in turn",
}
KEEPS: Meanings = {"all": "every line", "one page": "as many lines as fill a page"}
PACES: Meanings = {
    "as fast as possible": "each time as fast as the player can",
    "irregular": "in uneven time",
}
CHOICES: Meanings = {"one": "the player chooses one of the boxes", "any order": "goes from one to another freely"}
PLAYERS: Meanings = {
    "a2": "both play from here on",
    "first": "the first player alone from here on",
    "second": "the second player alone from here on",
}
BEATS: Meanings = {
    "half": "a half note is the beat",
    "quarter": "a quarter note is the beat",
    "eighth": "an eighth note is the beat",
    "dotted": "with a dot: dotted quarter = 60",
}
LENGTHS: Meanings = {"beats": "beats of the tempo", "bars": "bars of the meter", "s": "seconds"}
MODES: Meanings = {"major": "a major key", "minor": "a minor key", "none": "no key signature"}
METERS: Meanings = {"free": "no bars"}
CUES: Meanings = {"until": "until a cue, in quotes", "within": "after a cue: the longest it may take"}
STEPS: Meanings = {"by": "after a range: the step, G4..C5 by 1"}
MILLIMETRES: Meanings = {"mm": "millimetres"}
DIRECTIONS: Meanings = {
    "up": "moved up, by semitones or an interval: up 2, up M2",
    "down": "moved down, by semitones or an interval: down 2, down P5",
}
LINE_SIGNS: Meanings = {sign: LINE_MEANINGS[kind] for sign, kind in LINES.items()}
BLOCKS: Meanings = {
    "gesture": "one gesture: its technique, its contour, how long and how loud",
    "passage": "plays gestures, pitches and rests one after another",
    "exercises": "variants of a gesture, to practise",
    "part": "one instrument of several",
    "box": "what a player repeats freely",
}


@frozen
class Form:
    """A row of the language page: what is written and what it means, in Markdown; `words` are those it explains."""

    written: str
    means: str
    words: tuple[str, ...] = ()


POINTS = (
    Form("`G4`", "exactly this pitch (scientific pitch names, capitals: C4 is middle C)"),
    Form("`xG4`", "about this pitch: engraved with an x-notehead"),
    Form(
        "`low` `mid` `high`, `35%`",
        "a height inside the band: 0 %, 50 %, 100 %, `35%` of it in cents; always approximate, x-notehead",
        ("low", "mid", "high"),
    ),
    Form(
        "`highest`, `lowest`",
        "as high or low as the player can: triangle notehead with an arrow; a line to it ends with the arrow",
        ("highest", "lowest"),
    ),
    Form(
        "`7/4 of F2`",
        "the pitch whose frequency is 7/4 of that of F2, to the cent; printed as the nearest note with its cents",
        ("of",),
    ),
    Form(
        "`F 0:11`, `partial 11 of F 0`",
        "partial 11 of a tube (side and valves, or the position of a slide), and played on that tube",
        ("partial",),
    ),
    Form(
        "`random 7 in G4..C5 seed 3`",
        "seven random heights: approximate semitones of a band (x-noteheads); without `in`, heights in the band of "
        "the gesture. `random 7 ~~ in …` joins them by a line, otherwise each is an attack. The same seed (1 if "
        "there is none) always gives the same heights",
        ("random", "in", "seed"),
    ),
    Form("`r`", "silence", ("r",)),
    Form(
        "`…@T`",
        "T is the time of the point from the start, in beats (in seconds if `lasts` is in seconds): `2`, `2.5`, "
        "`5/2`",
    ),
    Form(
        "`… for N`",
        "its length in beats: `C5 for 3/2, D5 for 1/2`. Then every point of the contour must have one (except a "
        "last point where a line stops), none an `@`, and there is no `lasts`",
        ("for",),
    ),
    Form(
        "`… as TECHNIQUE`",
        "from here on this technique replaces what is in force in its layer (and what the mouth cannot do at the "
        "same time): gradually along a line, suddenly after `,`; `as muted + bells-up`: both. `as ordinary`: back "
        "to ordinary playing; it ends everything in force, including the gesture's own `technique`",
        ("as",),
    ),
    Form(
        "`… without TECHNIQUE`",
        "this technique ends here, gradually or suddenly in the same way; the others continue. May be repeated",
        ("without",),
    ),
    Form(
        "`… accent` and the like",
        "`accent`, `staccato`, `tenuto`, `marcato`, `fermata`, `breath`, or a dynamic (an error if `dynamics` is "
        "given too)",
        ("accent", "staccato", "tenuto", "marcato", "fermata", "breath", *LEVELS),
    ),
    Form(
        "`… sixteenths` and the like",
        "the note is repeated by the tongue: in `eighths`, `sixteenths` or `thirty-seconds`, written with strokes "
        "through the stem, or `unmeasured`, as fast as possible (strokes and words). It has no line or slur, and "
        "lasts a whole number of repeats, which in a triplet are of the triplet (`C5 for 2/3 sixteenths`: four). "
        "Also in `play`: `C5 for 4 sixteenths`",
        tuple(STROKES),
    ),
    Form(
        "`… ad lib`",
        "from here on the contour is only a suggestion: *ad lib.* above the point. It is checked as drawn",
        ("ad", "lib"),
    ),
    Form(
        "`… grace`",
        "a grace note of the note after it, `G4 grace, A4 grace, C5`; at the end, of the last note",
        ("grace",),
    ),
    Form(
        "`… closed`, `half-closed`, `open`",
        "what covers the bell or the mute, until the next: a plunger, a hand over the stem of a harmon mute, a "
        "hand before the bell; on the horn without a mute the hand in it (`stopped`, `half-stopped`). Printed as "
        "+, the half sign and o; gradual along a line, sudden after `,`. `as closed` is the same as `closed`",
        ("closed", "half-closed", "open"),
    ),
    Form('`… "inside the bell"`', "text above the point, or above a silence"),
    Form(
        '`… say "f"`',
        "a syllable under the point, spoken or breathed there, at most 24 letters; under a silence it is spoken "
        "away from the instrument",
        ("say",),
    ),
    Form(
        "`… inhale`, `exhale`",
        "the air goes in or out, with its sign: audibly in a silence (`r inhale` counts as a breath, `r exhale` "
        "does not); through the instrument on a note of `air`",
        ("inhale", "exhale"),
    ),
)
ENTRIES = (
    Form(
        '`tempo 96`, `tempo "Faster" 96`, `tempo dotted quarter = 60`',
        "a new tempo from here on; lengths go on counting the beat of the file",
        ("tempo",),
    ),
    Form(
        "`accelerando to 96 over 8`, `ritardando to 60 over 2 bars`",
        "the tempo changes by as much in every beat, over so many beats or bars, and stays there",
        ("accelerando", "ritardando", "to", "over"),
    ),
    Form("`meter 3/4`", "a new meter, at a bar line of a passage with bars", ("meter",)),
    Form("`key Eb major`, `key none`", "a new key signature, at a bar line if there are bars", ("key",)),
    Form(
        '`mark A`, `mark 12`, `mark "Coda"`',
        "a rehearsal mark in a frame, at a bar line if there are bars; at most 12 letters",
        ("mark",),
    ),
    Form(
        "`double bar`",
        "a double bar line, at a bar line if there are bars; as the last entry it replaces the final one",
        ("double", "bar"),
    ),
)
