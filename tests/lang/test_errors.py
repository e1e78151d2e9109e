"""Every mistake the reader knows: its rule, its place, the text above the caret, and what to write instead."""

import pytest
from lang.reading import read
from sampling import sample

from gesturesmith.lang.messages import RULES
from gesturesmith.lang.parse import LARGEST, MAX_LINES
from gesturesmith.lang.tokens import MAX_TOKENS

# A line of a gesture, the rule, the column, the marked text, and words of the message.
GESTURE = [
    (
        "contour: C4 # loud",
        "comment-spacing",
        15,
        "#",
        "a comment needs two spaces before its `#`; a sharp goes rig",
    ),
    ("contour: C4# loud", "accidental-order", 12, "C4#", "write C#4"),
    ("lasts: 4#x", "comment-spacing", 11, "#", "a comment needs two spaces before its `#`; a sharp goes rig"),
    ('text: "abc', "unclosed-text", 9, '"abc', 'put " at its end, on the same line'),
    ('text: “abc"', "unclosed-text", 9, '“abc"', "put ” at its end, on the same line"),
    ("text: hello there", "text-needs-quotes", 9, "hello", 'text: "hello there"'),
    ("text: 'hello'", "text-needs-quotes", 9, "'", 'text: "hello"'),
    ("contour: C4 ? D4", "unexpected-sign", 15, "?", "write a line, a comma or nothing"),
    ("lasts: 4", "missing-unit", 10, "4", "4 of what? Write 4 beats or 4 s"),
    ("contour: 5:4 D5", "bad-item", 12, "5:4", "the lengths, D5 for 1/5 and so on in one beat, for 2/5 in two"),
    ("contour: 7:4 {D5", "bad-item", 12, "7:4", "no 7:4: the bracket follows from the lengths"),
    ("contour: C5/8, D5", "bad-item", 12, "C5/8", "in beats: `C5 for 1/2` (an eighth) or `C5 for 1/8` (of a beat)"),
    ("lasts: 4 measures", "unknown-unit", 12, "measures", "write `bars`"),
    ("lasts: 4 sec", "unknown-unit", 12, "sec", "write `s`"),
    ("lasts: 0 beats", "out-of-range", 10, "0", "write a number above zero"),
    ("lasts: 1/0 beats", "zero-divisor", 10, "1/0", "the denominator is at least 1"),
    ("lasts: .5 s", "bad-number", 10, ".", "0.5"),
    ("lasts: 4. beats", "bad-number", 11, ".", "2.5"),
    ("lasts: 1,5 beats", "bad-number", 11, ",", "write 1.5"),
    ("lasts: -4 beats", "bad-number", 10, "-", "write 4"),
    (
        "lasts: four beats",
        "unexpected-sign",
        10,
        "four",
        "write a number and a unit, such as 4 beats, 2 bars or 2.5 s",
    ),
    ("lasts: 4 beats 3", "too-much", 18, "3", "`lasts` takes one length"),
    ("lasts: ½ beat", "bad-number", 10, "½", "1/2"),
    ("contour: c4", "lower-case-note", 12, "c4", "write C4"),
    ("contour: b4", "lower-case-note", 12, "b4", "write B4, or Bb4 for the German b"),
    ("contour: xb4", "lower-case-note", 12, "xb4", "write xB4, or xBb4 for the German b"),
    ("contour: xfis4", "bad-note", 12, "xfis4", "write xF#4"),
    ("contour: xCis4", "bad-note", 12, "xCis4", "write xC#4"),
    ("contour: H4", "note-h", 12, "H4", "write B4 for H, Bb4 for the German B"),
    ("contour: Hb4", "note-h", 12, "Hb4", "write B4 for H, Bb4 for the German B"),
    (
        "contour: F##^4",
        "quarter-after-double",
        12,
        "F##^4",
        "write F##4, or F#^4 after one sign, or name the neighbouring",
    ),
    (
        "contour: Bbbv4",
        "quarter-after-double",
        12,
        "Bbbv4",
        "write Bbb4, or Bbv4 after one sign, or name the neighbouring",
    ),
    ("contour: F^#4", "accidental-order", 12, "F^#4", "write F#^4"),
    ("contour: C##/5", "bad-note", 12, "C##", "follows the letter or a single sharp or flat: C/5, C#/5"),
    ("contour: C4+31", "cents-without-c", 12, "C4+31", "write C4+31c"),
    ("contour: C4-14", "cents-without-c", 12, "C4-14", "write C4-14c"),
    ("contour: C4+31cents", "cents-without-c", 12, "C4+31cents", "write C4+31c"),
    ("contour: C-1", "octave-range", 12, "C-1", "none below 0 can be written"),
    ("contour: C10", "octave-range", 12, "C10", "end the note with one digit"),
    ("contour: xlow", "x-before-height", 12, "xlow", "write low"),
    ("contour: xr", "x-before-height", 12, "xr", "write r"),
    ("contour: x35%", "x-before-height", 12, "x35", "write 35%"),
    ("contour: x low", "x-before-height", 12, "x", "write low"),
    ("contour: xG4+31c", "cents-on-x", 12, "xG4+31c", "write xG4 alone, or G4+31c"),
    ("contour: G4 ~~ -- C5", "two-lines", 18, "--", "put one line, or a comma, between two points"),
    ("contour: G4, , C5", "two-lines", 16, ",", "put one line, or a comma, between two points"),
    ("contour: G4 -- r", "line-at-silence", 15, "--", "put a comma next to r"),
    ("contour: r -- G4", "line-at-silence", 14, "--", "put a comma next to r"),
    ("contour: -- G4", "loose-line", 12, "--", "a contour starts with a point, not with a line"),
    ("contour: G4 --", "loose-line", 15, "--", "add one, or remove the sign"),
    ("contour: G4,", "loose-line", 14, ",", "add one, or remove the sign"),
    ("contour: G4 C5", "missing-line", 15, "C5", "put a comma (a new attack) or a line such as -- b"),
    ("contour: G4 - C5", "unexpected-sign", 15, "-", "--"),
    ("contour: G4 ~ C5", "unexpected-sign", 15, "~", "~~"),
    ("contour: G4 @ 2", "bad-place", 15, "@", "@2, @2.5 or @5/2"),
    ("contour: G4@2 @3", "said-twice", 17, "@3", "already has a place, 2"),
    ("contour: G4, A4 grace, r", "bad-grace", 16, "A4 grace", "put it before a note, or at the end"),
    ("contour: G4@2s", "bad-place", 16, "s", "@2"),
    ("contour: G4@2 s", "bad-place", 17, "s", "@2"),
    ("contour: G4 accent accent", "said-twice", 22, "accent", "keep one"),
    ("contour: G4 p f", "said-twice", 17, "f", "already has `p`"),
    ("contour: G4 as air as growl", "said-twice", 22, "as", "already turns to `air`"),
    ("contour: G4 as", "incomplete", 17, "", "add a technique after `as`, such as `as air`"),
    ("contour: G4 without", "incomplete", 22, "", "add a technique after `without`, such as `without growl`"),
    ("contour: G4 without air without air", "said-twice", 35, "air", "`air` already ends at this point"),
    ("contour: G4 without air + growl", "too-much", 27, "+", "write `without` before each"),
    ("contour: G4 as air + air", "said-twice", 24, "air", "`air` is there twice"),
    ("contour: G4 as ordinary + air", "said-twice", 29, "air", "nothing is joined to it"),
    ("contour: G4 as air as growl", "said-twice", 22, "as", "join with +"),
    ("contour: G4 as air + growl without growl", "said-twice", 38, "growl", "begins and ends at this point"),
    ("contour: G4 as air without air", "said-twice", 30, "air", "`air` begins and ends at this point"),
    ("contour: G4 without air as ordinary", "said-twice", 23, "air", "`as ordinary` ends every technique"),
    ('contour: say "f"', "unknown-word", 12, "say", '`say` goes after a point, not instead of one: G4 say "f"'),
    ("contour: G4 say f", "text-needs-quotes", 15, "say", 'in quotes after `say`: say "f"'),
    ('contour: G4 say "f" say "s"', "said-twice", 27, '"s"', "this point already has a syllable: keep one"),
    ('contour: G4 "in" @1 "out"', "said-twice", 23, '"out"', "this point already has a text: keep one"),
    ('contour: G4 say ""', "incomplete", 19, '""', "an empty syllable"),
    (f'contour: G4 say "{"f" * 25}"', "out-of-range", 19, f'"{"f" * 25}"', "a syllable of 25 letters: 24 fit"),
    ("contour: G4 +", "unexpected-sign", 15, "+", "+ is the word `closed`"),
    ("contour: G4 o", "unknown-word", 15, "o", "write `open`"),
    ("contour: G4 closed open", "said-twice", 22, "open", "this point is already `closed`"),
    ("contour: G4 inhale exhale", "said-twice", 22, "exhale", "the air goes one way"),
    ("contour: without growl", "unknown-word", 12, "without", "`without` goes after a point"),
    ("contour: G4 witout growl", "unknown-word", 15, "witout", "write `without`"),
    ("contour: G4 acent", "unknown-word", 15, "acent", "write `accent`"),
    ("contour: hig", "unknown-word", 12, "hig", "write `high` or `highest`"),
    ("contour: middle", "unknown-word", 12, "middle", "write `mid`"),
    ("contour: 150%", "out-of-range", 12, "150%", "0% is its bottom, 100% its top"),
    ("contour: 35 %", "bad-number", 12, "35 %", "write 35%"),
    ("contour: 35", "bad-number", 12, "35", "a height takes a %, and a decimal a point, not a comma"),
    ("contour: F4#", "accidental-order", 12, "F4#", "write F#4"),
    ("contour: G", "bad-note", 12, "G", "write G4 for the octave from middle C up"),
    ("contour: G4 -- growing C5", "unknown-word", 18, "growing", "write ~~ growing"),
    ("contour: r accent", "unknown-word", 14, "accent", "only `fermata`, `breath`, `inhale` or `exhale`"),
    ("contour: rest", "unknown-word", 12, "rest", "silence in a contour is `r`"),
    ("contour: C4 'loud'", "unexpected-sign", 15, "'", "write a line, a comma or nothing"),
    ("contour: C4 +31c", "unexpected-sign", 15, "+", "(C4+31c), and a technique follows `as`"),
    ("contour: C4...", "unexpected-sign", 14, "...", "`--`, `~~`, `::`, `..`, `->`, `__` or `,`"),
    ("contour: C4 --- D4", "unexpected-sign", 15, "---", "`--`, `~~`, `::`, `..`, `->`, `__` or `,`"),
    ("band: F5..G4", "bad-band", 9, "F5..G4", "G4..F5"),
    ("band: G4..G4", "bad-band", 9, "G4..G4", "its two pitches are the same"),
    ("band: xG4..F5", "bad-band", 9, "xG4", "G4"),
    ("band: G4+3c..F5", "bad-band", 9, "G4+3c", "G4"),
    ("band: G4", "bad-band", 11, "", "G4..F5"),
    ("band: G4-F5", "bad-band", 11, "-", ".."),
    ("band: low..high", "bad-band", 12, "..", "only pitches have .. between them; write the register alone"),
    ("band: g4..f5", "lower-case-note", 9, "g4", "write G4"),
    ("band: G4 F5", "bad-band", 12, "F5", "G4..F5"),
    ("dynamics: p <", "incomplete", 16, "", "p < f; n is niente"),
    ("dynamics: < f", "incomplete", 13, "<", "p < f; n is niente"),
    ("dynamics: p < < f", "incomplete", 17, "<", "p < f; n is niente"),
    ("dynamics: p, f", "unexpected-sign", 14, ",", "p < f, or f@3 for a place"),
    (
        "dynamics: purple",
        "unknown-word",
        13,
        "purple",
        "write `n`, `ppp`, `pp`, `p`, `mp`, `mf`, `f`, `ff`, `fff`, `",
    ),
    ("dynamics: p cresc f", "unknown-word", 15, "cresc", "write `<`"),
    ("dynamics: pppp", "unknown-word", 13, "pppp", "write `ppp` or `pp`"),
    ("dynamics: mf each", "unknown-word", 16, "each", "fp each"),
    ("dynamics: fp < f each", "unknown-word", 20, "each", "fp each"),
    ("dynamics: fp@2 each", "bad-place", 15, "@2", "fp each"),
    ("contour: G4 eighths sixteenths", "said-twice", 23, "sixteenths", "already has `eighths`"),
    ("dynamics: f@", "bad-place", 14, "@", "f@3"),
    ("dynamics: p accent", "unknown-word", 15, "accent", "put it after its point in `contour`"),
    ("technique: a, b", "unexpected-sign", 15, ",", "techniques are joined with +, not with ,"),
    ("technique: a +", "incomplete", 17, "", "add the name of a technique after +"),
    ("technique: half_valve", "bad-name", 14, "half_valve", "write `half-valve`"),
    ('technique: "bend"', "unknown-word", 14, '"bend"', "bend"),
    ("attacks: 3/2", "bad-number", 12, "3/2", "write the number of attacks"),
    ("attacks: 0", "out-of-range", 12, "0", "at least 1"),
    ("attacks: 8 faster", "unknown-word", 14, "faster", "write `accelerating`"),
    ("attacks: many", "unexpected-sign", 12, "many", "write the number of attacks"),
    ("fingering: F12", "bad-fingering", 15, "12", "write 1-2"),
    ("fingering: 1-1", "bad-fingering", 14, "1-1", "write 1-2, or commas between the points"),
    ("fingering: Q 1", "unknown-word", 14, "Q", "write `F`, `Bb`, `Eb`, `Ab`, `T`, `TT`, `short` or `long`"),
    ("fingering: f 1", "unknown-word", 14, "f", "write `F`"),
    ("fingering: F 1 2", "bad-fingering", 18, "2", "valves are joined with hyphens (1-2), points separated by co"),
    ("fingering: 1-2 F", "bad-fingering", 18, "F", "F 1-2"),
    ("fingering: F", "incomplete", 15, "", "add valves such as 1-2, 0 for none, or a slide position"),
    ("fingering: held, F 1", "too-much", 18, ",", "`fingering` takes `held` alone, or fingerings with commas"),
    ("fingering: open", "bad-fingering", 14, "open", "without valves is 0, as in F 0"),
    ("fingering: 10", "bad-fingering", 14, "10", "0 alone, or valves such as 1-3"),
    ("mute: harmonn", "unknown-word", 9, "harmonn", "write `harmon`"),
    ("mute: purple", "unknown-word", 9, "purple", "write `straight`, `stopping`, `cup`, `harmon`, `plunger`, `b"),
    ("notehead: cross", "unknown-word", 13, "cross", "write `x`"),
    ("allow: out-of-range", "incomplete", 22, "", 'allow: out-of-range "agreed with the player"'),
    ('allow: "x"', "unknown-word", 10, '"x"', "x"),
    ("allow: a b", "text-needs-quotes", 12, "b", 'allow: "b"'),
    ('title: "x"', "misplaced-key", 3, "title", 'a title goes in quotes after the name: gesture name "Title'),
    ("foo: 1", "unknown-key", 3, "foo", "choose from `technique`, `contour`, `band`, `lasts`, `dynamics"),
    ("C4 ~~ D4", "not-a-key", 3, "C4", "write a key, a colon and its value, such as `lasts: 4 beats`"),
    ("lasts = 4 beats", "missing-colon", 3, "lasts", "lasts: …"),
    ("contour:", "empty-value", 3, "contour", "has no value: write one, or remove the key"),
]

# The same in a passage.
PASSAGE = [
    ("play: beacon,, b", "bad-list", 15, ",", "add an item, or remove the comma"),
    ("play: beacon,", "bad-list", 15, ",", "add an item, or remove the comma"),
    ("play: c4 for 2", "lower-case-note", 9, "c4", "write C4"),
    ("play: H4 for 2", "note-h", 9, "H4", "write B4 for H, Bb4 for the German B"),
    ("play: C4", "bad-item", 9, "C4", "how long? Write C4 for 2 (beats)"),
    ("play: 5:4 C5", "bad-item", 9, "5:4", "the lengths, C5 for 1/5 and so on in one beat, for 2/5 in two"),
    ("play: 3:2 (C5 for 1)", "bad-item", 9, "3:2", "no 3:2: the bracket follows from the lengths, C5 for 1/3"),
    (
        "play: C5/4",
        "bad-item",
        9,
        "C5/4",
        "`for`, in beats: `C5 for 1` (a quarter note) or `C5 for 1/4` (of a beat)",
    ),
    ("play: C5/3 accent", "bad-item", 9, "C5/3", "a length stands after `for`, in beats: `C5 for 1/3` (of a beat)"),
    ("play: C4 for 2 s", "unknown-unit", 18, "s", "2 beats"),
    ("play: rest", "incomplete", 13, "", "add the length of the rest in beats: rest 4"),
    ("play: r 4", "bad-item", 9, "r", "rest 4"),
    ("play: low for 2", "bad-item", 9, "low", "play a gesture or a pitch"),
    ("play: beacon up", "incomplete", 18, "", "add semitones (up 2) or an interval (up M2, down P5)"),
    ("play: beacon up X9", "bad-item", 19, "X9", "write M2, m3, P4, A4, d5 and the like, or a number of semito"),
    ("play: beacon up 1/2", "bad-number", 19, "1/2", "write semitones"),
    ("play: beacon for 2", "bad-item", 16, "for", "a gesture is as long as its own `lasts` says"),
    ("play: beacon knocks", "bad-list", 16, "knocks", "put a comma between the items of a passage"),
    ("play: beacon x 2", "bad-item", 16, "x", "2 for the whole"),
    ("play: beacon -- knocks", "bad-item", 16, "--", "lines belong in the contour of a gesture; use commas here"),
    ('play: "Beacon"', "bad-item", 9, '"Beacon"', "without quotes"),
    ("play: C4 for 2 for 3", "said-twice", 18, "for", "one `for` per pitch"),
    ("play: C4@2 for 2", "bad-item", 11, "@2", "items of a passage follow each other"),
    ("play: 4", "bad-item", 9, "4", "rest 4, or C4 for 4"),
    ("play: rit. 40, C4 for 4", "bad-change", 9, "rit", "over how many beats: ritardando to 60 over 8"),
    ("play: accelerando to 96, C4 for 4", "bad-change", 26, ",", "Write accelerando to 96 over 8"),
    ("play: C4 for 4, a tempo, C4 for 4", "bad-change", 19, "a", "say which tempo it goes back to: tempo 60"),
    ("play: C4 for 4, 3/4, C4 for 3", "bad-change", 19, "3/4", "a new meter is written meter 3/4"),
    ("play: C4 for 4, letter B, C4 for 3", "bad-change", 19, "letter", "write mark A"),
    ("play: C4 for 4, mark A4, C4 for 3", "bad-change", 24, "A4", "is a pitch: the letter alone, mark A"),
    ("play: C4 for 4, meter free, C4 for 3", "bad-change", 25, "free", "begin another with `meter: free`"),
    ("play: C4 for 4, tempo 90 C4 for 3", "bad-list", 28, "C4", "put a comma after it"),
    ("key: eb major", "bad-key", 8, "eb", "keys are written with capitals: Eb minor, or Eb major"),
    ("key: Eb", "bad-key", 8, "Eb", "Write Eb major or Eb minor"),
    ("key: G# major", "bad-key", 8, "G#", "would need more than seven signs: write Ab major"),
    ("auftakt: 1 beat", "unknown-key", 3, "auftakt", "write `pickup`"),
    ("repeat: 0", "out-of-range", 11, "0", "at least 1"),
    ("repeat: 2 times", "too-much", 13, "times", "repeat: 2"),
]

# The same in exercises, after their first line.
EXERCISES = [
    ("start: G4..C5", "bad-list", 16, "", "G4..… by 1"),
    ("start: G4 to C5", "bad-list", 13, "to", "G4..… by 1"),
    ("start: G4..C5 by 0", "out-of-range", 20, "0", "write a number above zero"),
    ("start: G4, C5 by 1", "bad-list", 17, "by", "G4..… by 1"),
    ("start: G4, C5..D5 by 1", "bad-list", 16, "..", "write a list or one range, not both"),
    ("lasts: 8, 6", "missing-unit", 10, "8", "8, 6, 4 beats"),
    ("lasts: 8..4 by 1", "missing-unit", 10, "8", "8, 6, 4 beats"),
    ("band: G4..F5 by 1", "bad-list", 16, "by", "G4..F5, C4..G4"),
    ("tempo: 10", "out-of-range", 10, "10", "10 is out of range: tempos run from 20 to 300"),
    ("tempo: 60 72", "bad-list", 13, "72", "put a comma between the items of a list"),
    (
        "order: easy first",
        "unknown-word",
        10,
        "easy first",
        "write `easiest first`, `hardest first` or `as listed`",
    ),
    ("order: easiest-first", "unknown-word", 10, "easiest-first", "write `easiest first` or `hardest first`"),
    ("keep: some", "unknown-word", 9, "some", "write `all` or `one page`"),
    ("keep: a page", "unknown-word", 9, "a page", "write `one page`"),
    ("mirror: maybe", "unknown-word", 11, "maybe", "write `yes` or `no`"),
    ("times: 1.5", "bad-number", 10, "1.5", "write a number such as 2"),
    ("stretch: 0, 1", "out-of-range", 12, "0", "write a number above zero"),
]

# Several mistakes on one line of a gesture: each is reported.
SEVERAL = [
    (
        "contour: Fis4, Es4, As3",
        [
            ("bad-note", 12, "Fis4", "write F#4 for `Fis4`"),
            ("bad-note", 18, "Es4", "write Eb4 for `Es4`"),
            ("bad-note", 23, "As3", "write Ab3 for `As3`"),
        ],
    ),
    (
        "contour: C4 D4 E4, c4 -- h5",
        [
            ("missing-line", 15, "D4", "put a comma (a new attack) or a line such as -- b"),
            ("lower-case-note", 22, "c4", "write C4"),
            ("note-h", 28, "h5", "write B5 for H, Bb5 for the German B"),
        ],
    ),
]

# Whole files: rule, line, column, marked text, words of the message.
FILES = [
    ("part one\n  players: 3", [("out-of-range", 2, 12, "3", "give more players parts")]),
    ("part one\n  players: 2 horns", [("too-much", 2, 14, "horns", "1 or 2")]),
    ("passage p\n  play: C4 / D4 for 1 a2", [("bad-item", 2, 23, "a2", "divided, both play: leave out `a2`")]),
    ("passage p\n  play: C4 / D4", [("bad-item", 2, 14, "D4", "how long? Write D4 for 2 (beats)")]),
    ("passage p\n  play: C4 / fog", [("bad-item", 2, 9, "C4", "how long? Write `for 2`")]),
    ("passage p\n  play: C4 for 1 a2 p", [("bad-list", 2, 21, "p", "put a comma")]),
    ("part one\npart two\npassage p\n  onw: C4 for 1", [("unknown-part", 4, 3, "onw", "write `one`")]),
    (
        "part one\npart two\npassage p\n  x: C4 for 1",
        [("unknown-part", 4, 3, "x", "the parts are `one` and `two`")],
    ),
    ("part tempo", [("reserved-name", 1, 6, "tempo", "is a key of the language: choose another name")]),
    ('part "Horn 1"', [("missing-name", 1, 6, '"Horn 1"', 'part horn "Horn 1"')]),
    ("bpm: 72", [("unknown-key", 1, 1, "bpm", "write `tempo`")]),
    ("tempoo: 72", [("unknown-key", 1, 1, "tempoo", "write `tempo`")]),
    ("contour: C4", [("misplaced-key", 1, 1, "contour", "it belongs in a gesture")]),
    ("tempo: 72\ntempo: 60", [("repeated-key", 2, 1, "tempo", "keep one of the two")]),
    ("tempo 72", [("missing-colon", 1, 1, "tempo", "tempo: …")]),
    ("title:", [("empty-value", 1, 1, "title", "has no value: write one, or remove the key")]),
    (
        "gestur beacon\n  contour: c4",
        [("unknown-block", 1, 1, "gestur", "write `gesture`"), ("lower-case-note", 2, 12, "c4", "write C4")],
    ),
    ("gesture\n  contour: C4", [("missing-name", 1, 1, "gesture", "gesture beacon")]),
    ("gesture 2nd", [("bad-name", 1, 9, "2nd", "letters and digits, joined with single hyphens, a letter fir")]),
    ("gesture fog horn", [("bad-heading", 1, 13, "horn", 'fog-horn, or a title in quotes: fog "Title"')]),
    ('gesture "Fog Horn"', [("missing-name", 1, 9, '"Fog Horn"', 'gesture fog-horn "Fog Horn"')]),
    ("gesture low", [("reserved-name", 1, 9, "low", "choose another name")]),
    ("gesture C4", [("reserved-name", 1, 9, "C4", "C4 is a note, so it cannot name a gesture")]),
    ("gesture a\ngesture A", [("repeated-name", 2, 9, "A", "choose another")]),
    ("gesture beacon:", [("bad-heading", 1, 15, ":", "remove it")]),
    ("gesture: beacon", [("bad-heading", 1, 1, "gesture", "gesture name")]),
    ("gesture a_b", [("bad-name", 1, 9, "a_b", "write `a-b`")]),
    ("gesture a--b", [("bad-name", 1, 10, "--", "fog-horn")]),
    ("exercise week", [("unknown-block", 1, 1, "exercise", "write `exercises`")]),
    ("gesture a\n  contour: C4\n\tlasts: 4 beats", [("mixed-indentation", 3, 1, "\t", "use spaces everywhere")]),
    # A tab reaches to column eight: it continues a value indented by six.
    (
        "gesture a\n      contour: C4,\n\tD4",
        [("mixed-indentation", 3, 1, "\t", "use spaces everywhere")],
    ),
    (
        "gesture a\n  contour: C4\n    lasts: 4 beats",
        [("wrong-indentation", 3, 1, "    ", "keys are indented by 2 spaces in this file, this line by 4 s")],
    ),
    (
        'gesture a\n    contour: C4\n  lasts: 4 beats\n  text: "a"',
        [("wrong-indentation", 3, 1, "  ", "keys are indented by 4 spaces in this file, this line by 2 s")],
    ),
    (
        "gesture a\ncontour: C4\nlasts: 4 beats",
        [("wrong-indentation", 2, 1, "contour", "put two spaces before it")],
    ),
    ("  tempo: 72\n  pitches: written", [("wrong-indentation", 1, 1, "  ", "remove the white space before it")]),
    ('tit\x07le: "x"', [("control-character", 1, 4, "\x07", "delete it")]),
    ("tempo: 0", [("out-of-range", 1, 8, "0", "0 is out of range: tempos run from 20 to 300")]),
    ("tempo: 500", [("out-of-range", 1, 8, "500", "500 is out of range: tempos run from 20 to 300")]),
    ("tempo: 72 bpm", [("too-much", 1, 11, "bpm", "tempo: 72")]),
    ("tempo: fast", [("bad-number", 1, 8, "fast", "a number of beats per minute, words in quotes before")]),
    ("tempo: q = 72", [("bad-number", 1, 8, "q", "a number of beats per minute, words in quotes before")]),
    ("tempo: dotted quarter 60", [("incomplete", 1, 23, "60", "dotted quarter = 60")]),
    ("tempo: dotted 60", [("unexpected-sign", 1, 15, "60", "`half`, `quarter` or `eighth`")]),
    ("tempo: quarter = 500", [("out-of-range", 1, 18, "500", "tempos run from 20 to 300")]),
    ('tempo: "Slow"', [("incomplete", 1, 14, "", '"Slow" 72')]),
    ('tempo: 72 "Slow"', [("too-much", 1, 11, '"Slow"', '"Slow" 72')]),
    ("meter: 4", [("bad-meter", 1, 8, "4", "write 4/4, 3/8 or free")]),
    ("meter: 4/5", [("bad-meter", 1, 8, "4/5", "the lower number is 1, 2, 4, 8, 16, 32 or 64")]),
    ("meter: C", [("bad-meter", 1, 8, "C", "write 4/4, 3/8 or free")]),
    ("paper: a5", [("unknown-word", 1, 8, "a5", "write `a4` or `letter`, or width and height, such as 230 x 3")]),
    ("paper: 210 x", [("incomplete", 1, 13, "", "add a length in mm")]),
    (
        "paper: 10 x 10",
        [("out-of-range", 1, 8, "10", "10 is out of range: paper sides in mm run from 50 to 2000")],
    ),
    ("staff: 7 cm", [("unknown-unit", 1, 10, "cm", "write `mm`")]),
    ("staff: 100", [("out-of-range", 1, 8, "100", "100 is out of range: staff heights in mm run from 1 to 50")]),
    ("wording: en de", [("bad-list", 1, 13, "de", "en, de")]),
    ("wording: english", [("unknown-word", 1, 10, "english", "write `en`")]),
    ("wording: en, de, fr", [("too-much", 1, 16, ",", "`wording` takes one language, or two with a comma")]),
    ("wording: en, en", [("said-twice", 1, 14, "en", "two different languages")]),
    ("language: 2", [("out-of-range", 1, 11, "2", "this program reads version 1 of the language, not 2")]),
    ("pitches: transposed", [("unknown-word", 1, 10, "transposed", "write `written`")]),
    ("instrument: my-horn.toml", [("text-needs-quotes", 1, 13, "my-horn", '"my-horn.toml"')]),
    ('pitches: "written"', [("unknown-word", 1, 10, '"written"', "written")]),
    ("heights: Band", [("unknown-word", 1, 10, "Band", "write `band`")]),
    ("Beacon", [("not-a-key", 1, 1, "Beacon", "write a setting such as `tempo: 72`, or `gesture`, `passage`")]),
    ('"text"', [("not-a-key", 1, 1, '"', "write a setting such as `tempo: 72`, or `gesture`, `passage`")]),
    (
        "# c\n   : x",
        [
            ("wrong-indentation", 2, 1, "   ", "remove the white space before it"),
            ("not-a-key", 2, 4, ":", "write a key, a colon and its value, such as `lasts: 4 beats`"),
        ],
    ),
]


def marked(text, errors):
    """Errors as tables list them: rule, line, column, the text above the caret."""
    lines = text.split("\n")
    return [
        (e.rule, e.span.line, e.span.column, lines[e.span.line - 1][e.span.column - 1 : e.span.end_column - 1])
        for e in errors
    ]


CASES = [
    *((f"gesture a\n  {case[0]}", 2, case) for case in GESTURE),
    *((f"passage a\n  {case[0]}", 2, case) for case in PASSAGE),
    *((f"exercises a\n  from: b\n  {case[0]}", 3, case) for case in EXERCISES),
]


@pytest.mark.parametrize(("text", "line", "case"), CASES, ids=[c[2][0][:40] for c in CASES])
def test_one_mistake_gives_one_error(text, line, case):
    _, rule, column, under, words = case
    tree, errors = read(text)
    assert marked(text, errors) == [(rule, line, column, under)]
    assert words in errors[0].message
    assert errors[0].code == RULES[rule]
    assert errors[0].gesture == "a"
    assert tree.blocks[0].broken


@pytest.mark.parametrize(("line", "expected"), SEVERAL)
def test_every_mistake_of_a_line_is_told(line, expected):
    text = f"gesture a\n  {line}"
    _, errors = read(text)
    assert marked(text, errors) == [(rule, 2, column, under) for rule, column, under, _ in expected]
    for error, (*_, words) in zip(errors, expected, strict=True):
        assert words in error.message


@pytest.mark.parametrize(("text", "expected"), FILES, ids=[case[0][:40] for case in FILES])
def test_mistakes_of_a_whole_file(text, expected):
    _, errors = read(text)
    assert marked(text, errors) == [tuple(e[:4]) for e in expected]
    for error, (*_, words) in zip(errors, expected, strict=True):
        assert words in error.message


def test_every_error_of_a_file_is_told_and_no_line_hides_the_next():
    text = "tempoo: 72\n\ngesture a\n  contour: c4 ~~ H4\n  lasts: 4\n  mute: cupp\n\ngesture A\n  band: F5..G4\n"
    _, errors = read(text)
    assert [(e.rule, e.span.line, e.gesture) for e in errors] == [
        ("unknown-key", 1, None),
        ("lower-case-note", 4, "a"),
        ("note-h", 4, "a"),
        ("missing-unit", 5, "a"),
        ("unknown-word", 6, "a"),
        ("repeated-name", 8, "A"),
        ("bad-band", 9, "A"),
    ]


def test_at_most_three_near_words():
    assert read("gesture a\n  not: 1")[1][0].nearest == ("note",)
    assert read("gesture a\n  dynamics: fffff")[1][0].nearest == ("fff",)
    assert read("gesture a\n  notehed: x")[1][0].nearest[0] == "notehead"
    for word in ("p", "t", "accidentals", "texts", "foot", "fingerin"):
        assert len(read(f"gesture a\n  {word}: 1")[1][0].nearest) <= 3


@pytest.mark.parametrize("name", ["Rest", "UP", "as", "middle", "R", "top", "for"])
def test_reserved_names_in_any_case(name):
    assert [e.rule for e in read(f"gesture {name}\n  contour: C4")[1]] == ["reserved-name"]


@pytest.mark.parametrize(
    "name", ["g1", "a4", "h4", "c", "x", "f", "Für-Elise", "e\u0301toile", "t-1", "accent", "gesture"]
)
def test_names_that_are_none_of_these(name):
    assert read(f"gesture {name}\n  contour: C4\npassage p\n  play: {name}, {name} up 2\n")[1] == ()


def test_a_file_that_is_no_text_or_too_large_gives_one_error():
    for text in ("MZ\0\0\x01gesture", "#" * (LARGEST + 1)):
        tree, errors = read(text)
        assert [(e.rule, e.span.line, e.span.column) for e in errors] == [("unreadable-file", 1, 1)]
        assert tree.blocks == ()


def test_a_thousand_errors_are_enough():
    _, errors = read("foo: 1\n" * 3000)
    assert len(errors) == 1001
    assert errors[-1].rule == "too-many-errors"
    assert errors[-1].span.line == 1001


def test_a_control_character_is_told_once_a_line_wherever_it_stands():
    text = 'title: "a\x07b\x07"\ngesture a\n  contour: C\x014 ~~\n  # \x02\n  lasts: 4 beats\n'
    tree, errors = read(text)
    assert [(e.rule, e.span.line, e.span.column) for e in errors] == [
        ("control-character", 1, 10),
        ("control-character", 3, 13),
        ("control-character", 4, 5),
    ]
    assert tree.blocks[0].broken
    assert tree.blocks[0].get("lasts").value is not None


def test_every_rule_of_the_table_is_tested_here():
    told = {case[1] for case in GESTURE + PASSAGE + EXERCISES}
    told |= {e[0] for table in (SEVERAL, FILES) for _, errors in table for e in errors}
    told |= {"unreadable-file", "too-many-errors", "control-character"}
    assert told == set(RULES)
    assert len(set(RULES.values())) == len(RULES)
    assert all(int(code[2:]) in (*range(20, 100), *range(101, 150)) for code in RULES.values())


def test_a_misspelled_kind_of_block_keeps_its_block():
    tree, errors = read('Gesture beacon "Beacon"\n  contour: C4\nexercise week\n  from: beacon\n')
    assert [e.rule for e in errors] == ["unknown-block", "unknown-block"]
    assert [(b.kind, b.name.text, b.broken) for b in tree.blocks] == [
        ("gesture", "beacon", True),
        ("exercises", "week", True),
    ]


@pytest.mark.parametrize("name", ["½a", "a²", "-a", "a_b", "a--b", "2a", "a♯b", "a.b", "a/b"])
def test_what_is_not_a_name(name):
    assert read(f"gesture {name}\n  contour: C4")[1]


@pytest.mark.parametrize("end", sample(["\n", "\r\n", "\r"], 3))
def test_a_file_of_too_many_lines_is_not_read(end):
    assert not read("# a line" + end * (MAX_LINES - 1))[1]
    (error,) = read("# a line" + end * (MAX_LINES + 1))[1]
    assert (error.rule, error.span.line) == ("unreadable-file", 1)
    assert "400,000" in error.message


@pytest.mark.parametrize(
    "text", ["gesture a\n  contour: " + "C4, " * MAX_TOKENS, "passage a\n  play: a" + "\n    , a" * MAX_TOKENS]
)
def test_a_value_of_too_many_words_is_given_up(text):
    errors = read(text)[1]
    assert [e.rule for e in errors] == ["too-much"]
    assert "100,000" in errors[0].message


def test_after_a_thousand_errors_reading_stops():
    """The rest is not read, and the last error says so."""
    tree, errors = read("a:\n" * 5000 + "gesture b\n  contour: C5\n")
    assert len(errors) == 1001
    assert errors[-1].rule == "too-many-errors"
    assert tree.blocks == ()
