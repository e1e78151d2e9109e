"""Explains each mistake that makes a line unreadable, with how to write it."""

from __future__ import annotations

import textwrap

from gesturesmith.lang.messages import RULES as LANGUAGE
from gesturesmith.model.messages import RULES as MEANING
from gesturesmith.values import frozen

_WIDTH = 96


@frozen
class Mistake:
    """A mistake in words, an example of it, and the corrected example; "" if lines cannot show it."""

    means: str
    wrong: str = ""
    right: str = ""


# Lines that begin with a space belong to a block. Tests read every example: `wrong` has this mistake and no other,
# `right` has none.
_TABLE = {
    # lines, keys, blocks
    "unknown-key": Mistake("There is no such key here.", "  tecnique: bend", "  technique: bend"),
    "misplaced-key": Mistake(
        "The key belongs somewhere else: settings at the top of the file, the others indented under their block.",
        '  title: "Fog"',
        'title: "Fog"',
    ),
    "repeated-key": Mistake(
        "A key may appear once; only `allow` may be repeated.", "tempo: 72\ntempo: 60", "tempo: 60"
    ),
    "missing-colon": Mistake("A colon separates a key from its value.", "  lasts = 4 beats", "  lasts: 4 beats"),
    "empty-value": Mistake("Nothing follows the colon.", "  lasts:", "  lasts: 4 beats"),
    "not-a-key": Mistake(
        "Every line of a block says what it is about first: a key, a colon, the value.",
        "  C4 ~~ D4",
        "  contour: C4 ~~ D4",
    ),
    "unknown-block": Mistake(
        "A block is a `gesture`, a `passage`, `exercises` or a `part`.",
        "gestur fog\n  contour: C4",
        "gesture fog\n  contour: C4",
    ),
    "missing-name": Mistake(
        "Every block has a name by which others call it; a title may follow in quotes.",
        'gesture "Fog Horn"\n  contour: C4',
        'gesture fog-horn "Fog Horn"\n  contour: C4',
    ),
    "bad-name": Mistake(
        "A name is made of letters and digits joined by single hyphens, and begins with a letter.",
        "gesture 2nd\n  contour: C4",
        "gesture second\n  contour: C4",
    ),
    "reserved-name": Mistake(
        "The word means something else already: a note, a height, a register, `rest`, `up` and the like.",
        "gesture low\n  contour: C4",
        "gesture low-call\n  contour: C4",
    ),
    "repeated-name": Mistake(
        "Two blocks have the same name; capitals make no difference.",
        "gesture fog\n  contour: C4\ngesture Fog\n  contour: D4",
        "gesture fog\n  contour: C4\ngesture fog-2\n  contour: D4",
    ),
    "bad-heading": Mistake(
        "Only a title in quotes may follow the name of a block.",
        "gesture fog horn\n  contour: C4",
        "gesture fog-horn\n  contour: C4",
    ),
    "mixed-indentation": Mistake("One file is indented with spaces or with tabs, not with both."),
    "wrong-indentation": Mistake(
        "The keys of a block have the same indentation; a deeper line continues the one above.",
        "gesture fog\ncontour: C4",
        "gesture fog\n  contour: C4",
    ),
    "comment-spacing": Mistake(
        "`#` is a sharp. A comment has two spaces before it, or stands alone on its line.",
        "  contour: C4 # loud",
        "  contour: C4  # loud",
    ),
    "unclosed-text": Mistake(
        "A text ends with the matching quote, on the same line.",
        '  text: "calm',
        '  text: "calm"',
    ),
    "text-needs-quotes": Mistake("Printed text needs quotes.", "  text: calm sea", '  text: "calm sea"'),
    "unexpected-sign": Mistake("This sign has no meaning here.", "  contour: C4 ~ D4", "  contour: C4 ~~ D4"),
    "control-character": Mistake("An invisible character, often from copying: delete it and retype the place."),
    "unreadable-file": Mistake("The file is not a text, or far too long."),
    "too-many-errors": Mistake("After a thousand mistakes no more are reported: fix these first."),
    "too-much": Mistake(
        "The value is complete, and something follows it.", "  lasts: 4 beats 3", "  lasts: 4 beats"
    ),
    # numbers and units
    "bad-number": Mistake(
        "Numbers are whole, decimal with a point, or fractions, and have no sign.",
        "  lasts: 1,5 beats",
        "  lasts: 1.5 beats",
    ),
    "zero-divisor": Mistake(
        "The denominator of a fraction is at least 1.", "  lasts: 1/0 beats", "  lasts: 1/2 beats"
    ),
    "out-of-range": Mistake("The number is too large or too small here.", "tempo: 500", "tempo: 300"),
    "bad-meter": Mistake("A meter is a fraction that notes can show, or `free`.", "meter: 4/5", "meter: 4/4"),
    "missing-unit": Mistake("A length needs its unit.", "  lasts: 4", "  lasts: 4 beats"),
    "unknown-unit": Mistake(
        "Lengths are in `beats`, `bars` or `s`, paper in `mm`.", "  lasts: 4 minutes", "  lasts: 240 s"
    ),
    # words and notes
    "unknown-word": Mistake("No such word is known here.", "  dynamics: loud", "  dynamics: ff"),
    "bad-note": Mistake(
        "A note is a capital letter, its accidental and an octave; C4 is middle C.",
        "  contour: Fis4",
        "  contour: F#4",
    ),
    "lower-case-note": Mistake("Notes are capitals.", "  contour: c4", "  contour: C4"),
    "note-h": Mistake("The note H is written B, the German B is Bb.", "  contour: H4", "  contour: B4"),
    "quarter-after-double": Mistake(
        "A quarter-tone sign follows the letter or one sharp or flat, not two.",
        "  contour: F##^4",
        "  contour: Gv4",
    ),
    "accidental-order": Mistake(
        "Sharps and flats come right after the letter, then the quarter-tone sign, then the octave.",
        "  contour: F^#4",
        "  contour: F#^4",
    ),
    "cents-without-c": Mistake("Cents end in `c`.", "  contour: C4+31", "  contour: C4+31c"),
    "octave-range": Mistake("Octaves go from 0 to 9.", "  contour: C10", "  contour: C9"),
    "x-before-height": Mistake(
        "Heights and silences are approximate already; `x` stands before notes only.",
        "  band: middle\n  contour: xlow",
        "  band: middle\n  contour: low",
    ),
    "cents-on-x": Mistake(
        "A pitch is approximate or exact to the cent, not both.", "  contour: xG4+31c", "  contour: xG4"
    ),
    # contours
    "two-lines": Mistake(
        "One line joins two points, or a comma separates them.", "  contour: G4 ~~ -- C5", "  contour: G4 ~~ C5"
    ),
    "line-at-silence": Mistake("No line leads to a silence or from one.", "  contour: G4 -- r", "  contour: G4, r"),
    "loose-line": Mistake("A line has a point on both sides.", "  contour: G4 --", "  contour: G4 -- C5"),
    "missing-line": Mistake(
        "Two points need a line between them, or a comma for a new attack.", "  contour: G4 C5", "  contour: G4, C5"
    ),
    "said-twice": Mistake(
        "The same thing is said twice about one point or value.", "  contour: G4@0 p f", "  contour: G4@0 f"
    ),
    "bad-place": Mistake(
        "A point's time follows it without a space or a unit, in beats (in seconds where `lasts` is).",
        "  contour: G4, C5@2s\n  lasts: 4 beats",
        "  contour: G4, C5@2\n  lasts: 4 beats",
    ),
    "bad-band": Mistake(
        "A band is a register's name, or two notes, the lower one first.", "  band: F5..G4", "  band: G4..F5"
    ),
    "bad-list": Mistake(
        "Items of a list have commas between them, a range `..` and `by`.",
        "  start: G4..C5",
        "  start: G4..C5 by 1",
    ),
    "incomplete": Mistake("Something is missing at the end.", "  dynamics: p <", "  dynamics: p < f"),
    "bad-fingering": Mistake(
        "Valves are joined by hyphens, in order; `0` is none; points are separated by commas.",
        "  fingering: F 12",
        "  fingering: F 1-2",
    ),
    "bad-item": Mistake(
        "A passage plays names, rests and pitches with their length.", "  play: C4", "  play: C4 for 2"
    ),
    # the file as a whole
    "missing-instrument": Mistake(
        "The file names no instrument.", "pitches: written", "instrument: horn\npitches: written"
    ),
    "unknown-instrument": Mistake(
        "There is no such instrument; see `gesturesmith list instruments`. The path of your own profile needs "
        "quotes.",
        "instrument: hron\npitches: written",
        "instrument: horn\npitches: written",
    ),
    "unreadable-profile": Mistake(
        "The instrument's own file cannot be used; `gesturesmith list instruments --show horn` prints one.",
        'instrument: "missing.toml"\npitches: written',
        "instrument: horn\npitches: written",
    ),
    "missing-pitches": Mistake(
        "A transposing instrument's part differs from what is heard: nobody should have to guess which is meant.",
        "instrument: horn",
        "instrument: horn\npitches: written",
    ),
    "unknown-technique": Mistake(
        "There is no such technique; see `gesturesmith list techniques`.",
        "  technique: stoped",
        "  technique: stopped",
    ),
    "unknown-register": Mistake(
        "The instrument has no register of this name; two notes make a band as well.",
        "  band: mddle\n  contour: low",
        "  band: middle\n  contour: low",
    ),
    "unknown-rule": Mistake(
        "There is no such rule; see `gesturesmith list rules`.",
        '  allow: breath-to-short "circular breathing"',
        '  allow: breath-too-short "circular breathing"',
    ),
    # gestures
    "missing-contour": Mistake(
        "A gesture without notes: it has at least one point.",
        "gesture fog\n  lasts: 4 beats",
        "gesture fog\n  contour: C4\n  lasts: 4 beats",
    ),
    "missing-band": Mistake(
        "Low, middle and high are heights in a band, and it has none.",
        "  contour: G4, high",
        "  band: middle\n  contour: G4, high",
    ),
    "empty-band": Mistake("A band reaches from one note to another.", "  band: G4..G4", "  band: G4..D5"),
    "upside-down-band": Mistake("The lower note of a band comes first.", "  band: F5..G4", "  band: G4..F5"),
    "first-point-late": Mistake(
        "The first point is at the start; a gesture that begins later begins with a silence.",
        "  contour: G4@1, A4@2",
        "  contour: r, G4@1, A4@2",
    ),
    "times-fall": Mistake(
        "Times go up from point to point.",
        "  contour: G4, A4@2, B4@1\n  lasts: 4 beats",
        "  contour: G4, A4@1, B4@2\n  lasts: 4 beats",
    ),
    "past-end": Mistake(
        "The time lies after the end of the gesture.",
        "  contour: G4 ~~ A4@9\n  lasts: 4 beats",
        "  contour: G4 ~~ A4@3\n  lasts: 4 beats",
    ),
    "no-slot-left": Mistake(
        "A detached note needs time of its own before the gesture ends.",
        "  contour: G4, A4@4\n  lasts: 4 beats",
        "  contour: G4, A4@3\n  lasts: 4 beats",
    ),
    "lasts-twice": Mistake(
        "Where every point has a length, the gesture is as long as all of them together.",
        "  contour: C5 for 3/2, D5 for 1/2\n  lasts: 4 beats",
        "  contour: C5 for 3/2, D5 for 1/2",
    ),
    "bar-without-meter": Mistake(
        "Bars are numbered only where there is a meter.",
        "passage p\n  bar: 12\n  play: C4 for 1",
        "passage p\n  meter: 4/4\n  bar: 12\n  play: C4 for 1",
    ),
    "bars-without-meter": Mistake(
        "A length in bars needs the meter of the file.", "  lasts: 2 bars", "  lasts: 8 beats"
    ),
    "no-length": Mistake("A gesture has some length.", "  lasts: 0 beats", "  lasts: 1 beat"),
    "dynamics-twice": Mistake(
        "Levels are given at the points or in `dynamics`, not in both.",
        "  contour: G4 ff, A4\n  dynamics: p < f",
        "  contour: G4, A4\n  dynamics: p < f",
    ),
    "fingering-pair": Mistake(
        "Two fingerings separated by a slash are for a trill.",
        "  contour: G4\n  fingering: F 0 / Bb 1",
        "  technique: timbre-trill\n  contour: G4\n  fingering: F 0 / Bb 1",
    ),
    "trill-below": Mistake(
        "A trill goes to a note above; a tremolo may go down.",
        "  trill: F4\n  contour: G4",
        "  trill: A4\n  contour: G4",
    ),
    "trill-of-many": Mistake(
        "One note is named, and the gesture trills on several pitches: name the interval.",
        "  trill: A4\n  contour: G4, F4",
        "  trill: whole\n  contour: G4, F4",
    ),
    "trill-on-itself": Mistake(
        "A timbre trill stays on its pitch.",
        "  technique: timbre-trill\n  trill: half\n  contour: G4",
        "  technique: valve-trill\n  trill: half\n  contour: G4",
    ),
    "waves-nowhere": Mistake(
        "A speed or width is that of a vibrato, trill, shake, tremolo or wah-wah.",
        "  contour: G4\n  speed: slow < fast",
        "  technique: vibrato\n  contour: G4\n  speed: slow < fast",
    ),
    "width-nowhere": Mistake(
        "A trill goes to its other note; only vibrato and shakes are wider or narrower.",
        "  technique: valve-trill\n  contour: G4\n  width: narrow < wide",
        "  technique: valve-trill\n  contour: G4\n  speed: slow < fast",
    ),
    "stem-of-other-mute": Mistake(
        "Only a harmon mute has a stem.",
        "  technique: stem-out\n  mute: cup\n  contour: G4",
        "  technique: stem-out\n  mute: harmon\n  contour: G4",
    ),
    "trill-nowhere": Mistake(
        "A trill starts from an exact pitch.",
        "  trill: half\n  contour: xG4",
        "  trill: half\n  contour: G4",
    ),
    "trill-and-tremolo": Mistake(
        "A note has a trill or a tremolo, not both.",
        "  trill: half\n  tremolo: B4\n  contour: G4",
        "  tremolo: B4\n  contour: G4",
    ),
    "fingering-count": Mistake(
        "One fingering for all points, or one for each.",
        "  contour: G4, A4, B4\n  fingering: F 0, F 1",
        "  contour: G4, A4, B4\n  fingering: F 0, F 1-2, F 2",
    ),
    "no-such-harmonic": Mistake(
        "A harmonic is named by a tube of the instrument and the number of a partial that the lip reaches on it.",
        "  contour: F 4:8",
        "  contour: F 0:8",
    ),
    "fingering-twice": Mistake(
        "A harmonic has its tube in its name, so `fingering` leaves it alone.",
        "  contour: F 0:8, C5\n  fingering: Bb 0, F 0",
        "  contour: F 0:8, C5\n  fingering: auto, F 0",
    ),
    "too-many-points": Mistake("A contour has at most 500 points: divide the gesture."),
    "too-many-gestures": Mistake("A file has at most 20,000 gestures, with 100,000 notes: divide it."),
    "sung-line": Mistake(
        "The sung line has pitches, times and lines; everything else belongs in the played contour.",
        "  technique: multiphonic\n  contour: F3\n  sing: C4 ff",
        "  technique: multiphonic\n  contour: F3 ff\n  sing: C4",
    ),
    "ends-ordinary": Mistake(
        "`without` ends a technique; ordinary playing is what is left then.",
        "  technique: growl\n  contour: G4, A4 without ordinary",
        "  technique: growl\n  contour: G4, A4 without growl",
    ),
    "height-outside-band": Mistake(
        "0% is the bottom of a band, 100% its top.",
        "  band: middle\n  contour: 120%",
        "  band: middle\n  contour: 100%",
    ),
    # passages and exercises
    "missing-play": Mistake(
        "A passage says what it plays.", "passage song\n  tempo: 60", "passage song\n  play: C4 for 2, rest 2"
    ),
    "unknown-name": Mistake(
        "Nothing in this file has that name.",
        "gesture fog\n  contour: C4\npassage song\n  play: frog",
        "gesture fog\n  contour: C4\npassage song\n  play: fog",
    ),
    "exercises-played": Mistake(
        "Passages play gestures and passages, not exercises.",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog\npassage song\n  play: week",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog\npassage song\n  play: fog",
    ),
    "plays-itself": Mistake(
        "A passage cannot be a part of itself, not even through another.",
        "passage song\n  play: C4 for 1, song",
        "passage song\n  play: C4 for 1\n  repeat: 2",
    ),
    "cannot-move": Mistake(
        "A gesture moves by its pitches: heights of a register and the extremes stay where they are.",
        "gesture fog\n  band: low\n  contour: low\npassage song\n  play: fog up 2",
        "gesture fog\n  band: G3..G4\n  contour: low\npassage song\n  play: fog up 2",
    ),
    "seconds-in-bars": Mistake(
        "A length in seconds does not fit into bars.",
        "gesture fog\n  contour: G4\n  lasts: 2 s\npassage song\n  meter: 4/4\n  play: fog",
        "gesture fog\n  contour: G4\n  lasts: 2 beats\npassage song\n  meter: 4/4\n  play: fog",
    ),
    "too-many-events": Mistake("Written out, a passage has at most 10,000 notes and rests, and as many bars."),
    "change-without-meter": Mistake(
        "Meters, bars and pickups belong to a passage with bars: give it the meter it begins with.",
        "passage song\n  play: C4 for 4, meter 3/4, C4 for 3",
        "passage song\n  meter: 4/4\n  play: C4 for 4, meter 3/4, C4 for 3",
    ),
    "change-mid-bar": Mistake(
        "A new meter or key, a rehearsal mark and a double bar line come at a bar line: fill the bar before it.",
        "passage song\n  meter: 4/4\n  play: C4 for 2, meter 3/4, C4 for 3",
        "passage song\n  meter: 4/4\n  play: C4 for 2, rest 2, meter 3/4, C4 for 3",
    ),
    "tempo-backwards": Mistake(
        "An accelerando leads to a faster tempo than the one before it, a ritardando to a slower one.",
        "passage song\n  tempo: 60\n  play: accelerando to 40 over 4, C4 for 4, D4 for 2",
        "passage song\n  tempo: 60\n  play: ritardando to 40 over 4, C4 for 4, D4 for 2",
    ),
    "tempo-overlap": Mistake(
        "While the tempo changes little by little, no other change of tempo begins.",
        "passage song\n  play: accelerando to 96 over 8, C4 for 4, tempo 96, D4 for 4",
        "passage song\n  play: accelerando to 96 over 4, C4 for 4, tempo 96, D4 for 4",
    ),
    "nothing-there": Mistake(
        "What changes, or is marked, stands before the music it holds for; a double bar line has music before it.",
        "passage song\n  play: C4 for 4, tempo 96",
        "passage song\n  play: C4 for 4, tempo 96, D4 for 4",
    ),
    "too-little-after": Mistake(
        "An accelerando or ritardando needs music, or rests, for all its beats.",
        "passage song\n  play: ritardando to 40 over 8, C4 for 4",
        "passage song\n  play: ritardando to 40 over 4, C4 for 4",
    ),
    "changed-twice": Mistake(
        "One place has one tempo, one meter, one rehearsal mark; a new meter or key is another than before.",
        "passage song\n  play: C4 for 4, mark A, mark B, C4 for 4",
        "passage song\n  play: C4 for 4, mark A, C4 for 4",
    ),
    "pickup-too-long": Mistake(
        "A pickup is the part of a bar before the first whole bar.",
        "passage song\n  meter: 3/4\n  pickup: 3 beats\n  play: C4 for 6",
        "passage song\n  meter: 3/4\n  pickup: 1 beat\n  play: C4 for 1, D4 for 3",
    ),
    "while-tempo-changes": Mistake(
        "What lasts seconds has no beats in which the tempo could change.",
        "gesture fog\n  contour: C4\n  lasts: 2 s\npassage song\n  play: accelerando to 96 over 1, fog, rest 4",
        "gesture fog\n  contour: C4\n  lasts: 2 s\npassage song\n  play: fog, accelerando to 96 over 4, rest 4",
    ),
    "too-many-changes": Mistake("A passage has at most 500 changes of tempo, meter and key, and marks: divide it."),
    "pickup-inside": Mistake(
        "A passage with a pickup is played inside another where the pickup leads to a bar line.",
        "passage song\n  meter: 4/4\n  pickup: 1 beat\n  play: C4 for 1, D4 for 4\n"
        "passage all\n  meter: 4/4\n  play: song, rest 3",
        "passage song\n  meter: 4/4\n  pickup: 1 beat\n  play: C4 for 1, D4 for 4\n"
        "passage all\n  meter: 4/4\n  play: rest 3, song",
    ),
    "parts-contradict": Mistake(
        "What changes in one line of a passage changes for all parts.",
        "part one\npart two\npassage song\n  one: C4 for 2, tempo 90, C4 for 2\n"
        "  two: C4 for 2, tempo 96, C4 for 2",
        "part one\npart two\npassage song\n  one: C4 for 2, tempo 90, C4 for 2\n  two: C4 for 4",
    ),
    "bad-change": Mistake(
        "A change in `play` says everything it needs: the tempo, and over how many beats it is reached.",
        "passage song\n  play: rit. 40, C4 for 4",
        "passage song\n  play: ritardando to 40 over 4, C4 for 4",
    ),
    "bad-key": Mistake(
        "A key is a note and `major` or `minor`, with at most seven sharps or flats; or `none`.",
        "passage song\n  key: E-flat\n  play: C4 for 4",
        "passage song\n  key: Eb major\n  play: C4 for 4",
    ),
    "other-tempo": Mistake(
        "Music inside a passage has the tempo and the meter of that passage.",
        "passage one\n  tempo: 90\n  play: C4 for 1\npassage all\n  play: one",
        "passage one\n  tempo: 90\n  play: C4 for 1\npassage all\n  tempo: 90\n  play: one",
    ),
    "missing-from": Mistake(
        "Exercises say which gesture they vary.",
        "gesture fog\n  contour: C4\nexercises week\n  keep: 3",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog\n  keep: 3",
    ),
    "not-a-gesture": Mistake(
        "Exercises vary one gesture, not a passage.",
        "passage song\n  play: C4 for 1\nexercises week\n  from: song",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog",
    ),
    "bad-range": Mistake(
        "A range goes from one value to another in steps.", "  start: G4..C5 by 0", "  start: G4..C5 by 1"
    ),
    "too-many-variants": Mistake(
        "The lists of exercises multiply: shorten one, or make its steps wider.",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog\n  tempo: 20..300 by 1\n  mirror: yes",
        "gesture fog\n  contour: C4\nexercises week\n  from: fog\n  tempo: 60..90 by 10\n  mirror: yes",
    ),
    "cannot-vary": Mistake(
        "This list cannot vary anything in that gesture.",
        "gesture fog\n  contour: highest\nexercises week\n  from: fog\n  start: G4",
        "gesture fog\n  contour: G4\nexercises week\n  from: fog\n  start: G4, A4",
    ),
    "too-long": Mistake(
        "A gesture, a note or a rest lasts at most 1000 beats.",
        "gesture fog\n  contour: G4\npassage song\n  play: fog, rest 2000",
        "gesture fog\n  contour: G4\npassage song\n  play: fog, rest 1000, rest 1000",
    ),
    "attacks-not-notes": Mistake(
        "Notes with a comma between them are an attack each, and notes under a slur have none. The attacks are as "
        "many as the notes, or one note or line has them all.",
        "  contour: G4, A4, Bb4\n  attacks: 6",
        "  contour: G4, A4, Bb4\n  attacks: 3 slowing",
    ),
    "attacks-timed": Mistake(
        "Attacks that speed up or slow down are placed by that: none of them has a time of its own.",
        "  contour: G4, A4@1, Bb4\n  attacks: 3 slowing",
        "  contour: G4, A4, Bb4\n  attacks: 3 slowing",
    ),
    "bad-grace": Mistake(
        "A grace note comes right before its note, or after the last one. It has no time and no technique of its "
        "own; a comma, a slur or a line leads from it to its note.",
        "  contour: G4, A4 grace, r",
        "  contour: G4, r, A4 grace, B4",
    ),
    "box-without-end": Mistake(
        "A box needs a length, or a cue that ends it.",
        "box echo\n  play: G4 for 1, rest 1\npassage song\n  play: echo",
        "box echo\n  play: G4 for 1, rest 1\n  lasts: 20 s\npassage song\n  play: echo",
    ),
    "box-too-short": Mistake(
        "The content of a box fits into its time at least twice.",
        "box echo\n  play: G4 for 4\n  lasts: 6 beats\npassage song\n  play: echo",
        "box echo\n  play: G4 for 4\n  lasts: 12 beats\npassage song\n  play: echo",
    ),
    "box-choice": Mistake(
        "A box has one `play`, or several and a `choose`.",
        "box echo\n  play: G4 for 1\n  play: C5 for 1\n  lasts: 20 s\npassage song\n  play: echo",
        "box echo\n  play: G4 for 1\n  play: C5 for 1\n  choose: one\n  lasts: 20 s\npassage song\n  play: echo",
    ),
    "box-in-bars": Mistake(
        "In bars a box has one `play` and a length in beats: seconds, cues and choices do not fit into bars.",
        "box echo\n  play: G4 for 1\n  lasts: 20 s\npassage song\n  meter: 4/4\n  play: echo",
        "box echo\n  play: G4 for 1\n  lasts: 12 beats\npassage song\n  meter: 4/4\n  play: echo",
    ),
    "box-content": Mistake(
        "A box repeats gestures, pitches and rests, not passages, other boxes or silence alone.",
        "box echo\n  play: rest 2\n  lasts: 20 s\npassage song\n  play: echo",
        "box echo\n  play: G4 for 1, rest 2\n  lasts: 20 s\npassage song\n  play: echo",
    ),
    "box-unplayed": Mistake(
        "A box is shown only where a passage plays it.",
        "box echo\n  play: G4 for 1\n  lasts: 20 s\npassage song\n  play: G4 for 1",
        "box echo\n  play: G4 for 1\n  lasts: 20 s\npassage song\n  play: echo",
    ),
    "strokes-misplaced": Mistake(
        "A note that is repeated with strokes stands alone, tongued on one pitch, and lasts a whole number of "
        "repeats.",
        "  contour: G4 sixteenths -- A4",
        "  contour: G4 sixteenths, A4",
    ),
    "graces-on-line": Mistake(
        "Attacks along a line have no grace notes: where they begin is not written.",
        "  contour: A4 grace, G4 ~~ C5\n  technique: half-valve\n  attacks: 4",
        "  contour: G4 ~~ C5\n  technique: half-valve\n  attacks: 4",
    ),
    # parts
    "unknown-part": Mistake(
        "The lines of a passage are those of the parts in this file.",
        "part one\npart two\npassage song\n  one: C4 for 2\n  two: G4 for 2\n  three: E4 for 2",
        "part one\npart two\npassage song\n  one: C4 for 2\n  two: G4 for 2",
    ),
    "part-without-instrument": Mistake(
        "A part says its instrument, unless the file says one for all parts.",
        'pitches: written\npart one "Horn 1"\n  fingerings: all\npassage song\n  one: C4 for 2',
        'pitches: written\npart one "Horn 1"\n  instrument: horn\npassage song\n  one: C4 for 2',
    ),
    "name-of-all-parts": Mistake(
        "`part` names the part of a file for one instrument; several have the titles of their blocks.",
        'instrument: horn\npitches: written\npart: "Horns"\npart one\npassage song\n  one: C4 for 2',
        'instrument: horn\npitches: written\npart one "Horn 1"\npassage song\n  one: C4 for 2',
    ),
    "play-beside-lines": Mistake(
        "A passage has a line for each part, or one `play` for whoever plays it in a line.",
        "part one\npassage song\n  one: C4 for 2\n  play: G4 for 2",
        "part one\npassage song\n  one: C4 for 2",
    ),
    "no-lines": Mistake(
        "In a file with parts a passage says what each of them plays.",
        "part one\npassage song\n  one: C4 for 2\npassage more\n  tempo: 60",
        "part one\npassage song\n  one: C4 for 2\npassage more\n  one: rest 2",
    ),
    "part-without-line": Mistake(
        "A part has a line in some passage at least.",
        "part one\npart two\npassage song\n  one: C4 for 2",
        "part one\npart two\npassage song\n  one: C4 for 2\n  two: rest 2",
    ),
    "unplayed": Mistake(
        "In a file with parts a gesture is for those that play it: without one its instrument is not known.",
        "part one\ngesture fog\n  contour: G4\npassage song\n  one: C4 for 2",
        "part one\ngesture fog\n  contour: G4\npassage song\n  one: fog, C4 for 2",
    ),
    "uneven-lines": Mistake(
        "In bars the lines of a passage are equally long. In free time a shorter line is followed by a rest.",
        "part one\npart two\npassage song\n  meter: 4/4\n  one: C4 for 4\n  two: G4 for 3",
        "part one\npart two\npassage song\n  meter: 4/4\n  one: C4 for 4\n  two: G4 for 3, rest 1",
    ),
    "one-player": Mistake(
        "`a2`, `first`, `second` and `/` say which of two players plays, in a part that has two.",
        "part one\npassage song\n  one: C4 for 2 a2",
        "part one\n  players: 2\npassage song\n  one: C4 for 2 a2",
    ),
    "uneven-division": Mistake(
        "What two players play at the same time is equally long.",
        "part one\n  players: 2\ngesture fog\n  contour: G4\n  lasts: 4 beats\npassage song\n  one: fog / C4 for 2",
        "part one\n  players: 2\ngesture fog\n  contour: G4\n  lasts: 4 beats\npassage song\n  one: fog / C4 for 4",
    ),
    "too-many-exercises": Mistake("All variants of a file have at most 50,000 notes and rests together."),
}
# Mistakes found before the first line is read.
_FILES = {
    "no-such-file": ("GS190", "There is no file of this name here: check its folder and ending."),
    "a-folder": ("GS191", "The folder has no .gesture file in it."),
    "not-allowed": ("GS192", "You have no permission to read the file or folder."),
    "file-too-large": ("GS193", "At most 2 MB are read, about ten thousand gestures: divide the file."),
    "not-a-text-file": ("GS194", "The file is a picture, a sound or a program, or it was damaged on its way."),
    "not-utf-8": ("GS195", "Save the file as UTF-8; editors offer this under Save as."),
    "cannot-be-read": ("GS196", "The machine could not read the file."),
    "not-musicxml": ("GS197", "The file is no score in MusicXML: export one from the program that made it."),
    "score-too-large": ("GS198", "The score is larger than any that is read: export fewer parts or bars."),
    "unreadable-in-score": ("GS199", "Something in a bar of the score could not be read; the rest was."),
}


def codes() -> dict[str, str]:
    """The code of every mistake, by name, in order of codes."""
    found = LANGUAGE | {rule: code for rule, (code, _) in MEANING.items()}
    found |= {rule: code for rule, (code, _) in _FILES.items()}
    return dict(sorted(found.items(), key=lambda item: item[1]))


def mistake(rule: str) -> Mistake:
    """The explanation of a mistake; KeyError if there is no such name."""
    return Mistake(_FILES[rule][1]) if rule in _FILES else _TABLE[rule]


def explain_mistake(name_or_code: str) -> str | None:
    """The mistake as text, by name or code; None if there is none."""
    wanted = name_or_code.strip().casefold()
    rule = next((r for r, code in codes().items() if wanted in (r, code.casefold())), None)
    if rule is None:
        return None
    found = mistake(rule)
    parts = [f"{rule}  ({codes()[rule]}, cannot be read)", "", *textwrap.wrap(found.means, _WIDTH)]
    for word, example in (("Instead of", found.wrong), ("write", found.right)):
        if example:
            parts += ["", word, *(f"    {line}" for line in example.split("\n"))]
    return "\n".join(parts) + "\n"
