# ruff: noqa: E501  (a golden a line)
"""Golden score texts: the input of LilyPond, for every technique and everything a gesture can contain.

The pictures of these were inspected; each case says what a reader must see. A change here changes pages.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest

from gesturesmith import registry

TECHNIQUES = "gesturesmith.techniques"


class Golden(NamedTuple):
    """A contour (with any keys it needs) and what a reader must see."""

    contour: str
    seen: str
    keys: str = ""
    file: str = ""


HEIGHTS = "band: middle"
# One picture per technique. SMuFL, Stone and Read as cited in the techniques' files.
BY_TECHNIQUE = {
    "air": Golden("G4, C5@2", "diamond heads, the word once"),
    "air-tone": Golden("G4, C5@2", "ordinary heads, the word once"),
    "bells-up": Golden("G4, C5@2", "the word once"),
    "bend": Golden("E5", "a small V after the note, nothing else"),
    "brassy": Golden("G4, C5@2", "the word cuivré once"),
    "chromatic": Golden("G4 ~~ C5", "the line, the word chrom., the end small and bracketed"),
    "doit": Golden("G4, C5@2", "a curve up and away after each note"),
    "doit-at-once": Golden("G4, C5@2", "a straight line up from each head"),
    "fall-at-once": Golden("G4, C5@2", "a straight line down from each head"),
    "flip": Golden("G4, C5@2", "an arch off each note"),
    "jazz-turn": Golden("G4, C5@2", "a lying S after each note"),
    "lift": Golden("C5", "a slanting line from below into the note"),
    "long-doit": Golden("G4, C5@2", "a long curve up after each note"),
    "long-fall": Golden("G4, C5@2", "a long curve down after each note"),
    "short-doit": Golden("G4, C5@2", "a short curve up after each note"),
    "short-fall": Golden("G4, C5@2", "a short curve down after each note"),
    "smear": Golden("C5", "a long S from below into the note"),
    "spill": Golden("C5, G5@2", "a jagged line down after each note"),
    "against-the-grain": Golden(
        "F3 -- Bb4", "a line that rises in steps, each falling a little, with its word, the position at its end", "", "instrument: trombone\npitches: sounding\n"
    ),
    "bell-tap": Golden("high, low", "x-heads on three lines, the word", HEIGHTS),
    "ghost": Golden("G4 as ordinary, A4 as ghost, C5 as ordinary", "the second head in parentheses, no word"),
    "factitious": Golden("xBb2", "an x-head with the word"),
    "false-fingering": Golden("G4", "eight notes, the word, two fingerings below the first", "attacks: 8\n  lasts: 4 beats"),
    "half-valve-notes": Golden("G4, C5@2 as ordinary", "a diamond head, then an ordinary one, no word"),
    "interrupted-gliss": Golden("G4 ~~ G5", "the line with its word"),
    "lip-buzz": Golden("xG4, xC5@2", "x-heads, the word"),
    "mouthpiece-alone": Golden("xG4, xC5@2", "x-heads, the word"),
    "oscillating-gliss": Golden("G4 ~~ G5", "the line with its word"),
    "reversed-mouthpiece": Golden("G4, C5@2", "diamond heads, the word once"),
    "trigger-gliss": Golden(
        "F3 -- C3", "a straight line with its word, T 1 at its end", "", "instrument: trombone-f\npitches: sounding\n"
    ),
    "valve-slide-tremolo": Golden(
        "D5, G4@2", "the word with a dashed line and a hook", "", "instrument: trumpet\npitches: written\n"
    ),
    "without-mouthpiece": Golden("xG3, xC4@2", "x-heads, the word"),
    "wah-wah": Golden("G4, C5@2", "the word, then + and o in turn to the end", "mute: plunger"),
    "stem-in": Golden("G4, C5@2", "con sord. with the mute's name, stem in"),
    "stem-half-out": Golden("G4, C5@2", "con sord. with the mute's name, stem half out"),
    "stem-out": Golden("G4, C5@2", "con sord. with the mute's name, stem out"),
    "double-tongue": Golden("A4", "two dots at each of eight attacks", "attacks: 8\n  lasts: 2 beats"),
    "fall": Golden("G4, C5@2", "a curve down and away after each note"),
    "fingered-gliss": Golden("G4 ~~ C5", "the line with its word"),
    "flutter-tongue": Golden("G4, C5@2", "three slashes on each note, flz. once"),
    "growl": Golden("D4, E4", "the word with a dashed line to a hook over the last note"),
    "closed": Golden("G4, C5@2", "without a mute the hand in the horn does it: + over each note"),
    "tremolo": Golden("C5", "the word with a dashed line, a third above in parentheses"),
    "half-closed": Golden("G4, C5@2", "a slashed o over each note"),
    "half-stopped": Golden("G4, C5@2", "a slashed o over each note"),
    "half-valve": Golden("xG4 ~~ xD5@2 ~~ xF5", "x-heads on a wavy line, the word once"),
    "hand-gliss": Golden("C5 -- B4@2", "o with an arrow to +, the held end an ordinary note"),
    "hand-out": Golden("Ab5 -- C6@2 -- A5@3", "the line through three heads, the word, the fingering"),
    "harmonic-gliss": Golden("G4 ~~ G5@3/2 accent", "the wavy line to an ordinary held note, the one fingering"),
    "kiss": Golden("high, low", "x-heads on three lines, the word", HEIGHTS),
    "lip-gliss": Golden("xE5 :: xC5@1 .. xA4", "a broken line, then a dotted one"),
    "lip-trill": Golden("G5", "the trill sign with the word lip"),
    "mouthpiece-pop": Golden("high, low", "x-heads on three lines, the word", HEIGHTS),
    "multiphonic": Golden("F3", "small diamonds on a line above an ordinary note", "lasts: 4 beats\n  sing: C4 -- D4@2 -- C4"),
    "muted": Golden("G4, C5@2", "con sord. with the mute's name", "mute: cup"),
    "pedal": Golden("F2", "the word once", "", "instrument: horn\npitches: written\n"),
    "ordinary": Golden("G4, C5@2", "two half notes and nothing else"),
    "plop": Golden("G4", "a curve from above into the note"),
    "quarter-tones": Golden("F#^4 __ G4", "a quarter-tone accidental, a slur, fingerings below both"),
    "rip": Golden("G5", "a steep line from below into the note"),
    "scoop": Golden("Bb4", "a curve from below, before the accidental"),
    "shake": Golden("G5", "the word with a dashed line and a hook"),
    "single-tongue": Golden("G4, C5@2", "the word once"),
    "slap-tongue": Golden("high, low", "x-heads on three lines, the word", HEIGHTS),
    "slide-gliss": Golden(
        "D3 -- F3", "a straight line with gliss. on it", "", "instrument: trombone\npitches: sounding\n"
    ),
    "split-attack": Golden("high, mid, high, low", "x-heads on three lines, the word", HEIGHTS),
    "split-tone": Golden("G4", "two heads on one stem, the word"),
    "stopped": Golden("G4, C5@2", "+ over each note, no word"),
    "timbre-trill": Golden("G4", "the trill sign, the word, two fingerings"),
    "triple-tongue": Golden("A4", "three dots at each of six attacks, in triplets", "attacks: 6\n  lasts: 2 beats"),
    "valve-clicks": Golden("high, low", "x-heads on three lines, the word", HEIGHTS),
    "valve-trill": Golden("G4", "the trill sign"),
    "vibrato": Golden("G4, C5@2", "the word once"),
}  # fmt: skip

# What a gesture can contain, with any technique.
BY_SUBJECT = {
    "beacon": Golden(
        "xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4",
        "a half x, two stemless x, a bracketed one at the end; the band grey; levels at their times",
        'technique: half-valve\n  band: G4..F5\n  dynamics: p < f@3 > p\n  footnote: "Follow the shape."',
    ),
    "accelerating": Golden("F#4", "a beam that fans out, the length above", "attacks: 5 accelerating\n  lasts: 2 beats"),
    "slowing": Golden("F#4", "one beam that closes, the length above", "attacks: 5 slowing\n  lasts: 2 beats"),
    "attacks-on-a-line": Golden(
        "xG4 ~~ xF5", "x-heads on the line without accidentals, the end bracketed", "attacks: 4\n  lasts: 4 beats"
    ),
    "no-note-value": Golden("C5, D5, E5", "stemless heads under a bracket", "lasts: 7/5 beats"),
    "seconds": Golden("C5 ~~ E5@1, r@3/2, D5@2", "stemless heads, a bracket with 3 s", "lasts: 3 s"),
    "triplets": Golden("C5, D5 __ E5", "three half notes in a triplet, a slur", "lasts: 4 beats"),
    "five-beats": Golden("C5", "a whole note tied to a quarter", "lasts: 5 beats"),
    "cents": Golden("C5+31c, C5-14c, C#5+70c", "plain notes with the cents a tuner shows, C sharp and 70 as D"),
    "natural-after": Golden("F#4, F4, F4", "a natural once, since an accidental holds for its note only"),
    "extremes": Golden("lowest ~~ growing highest@2 ~~ fading lowest", "triangles beyond the lines"),
    "heights-in-a-band": Golden("low ~~ 35%@1 ~~ high@2, mid, r, highest", "x in a grey band", "band: C4..G5"),
    "marks": Golden("C5 accent, D5 staccato, E5 tenuto, F5 marcato, G5 fermata, A5 breath", "a mark at each note"),
    "levels-at-points": Golden("C5 sffz, D5 sfp, E5 rfz, F5 fp", "a level at each note"),
    "levels-inside": Golden("C5", "levels at their times under one whole note, from and to nothing",
                            "lasts: 4 beats\n  dynamics: n < f@3/2 > p@3 > n"),
    "sudden-change": Golden("C5, D5 as flutter-tongue, E5 as ordinary", "flz. at the second, ord. at the third"),
    "gradual-change": Golden("C5 as air -- D5@2 as ordinary -- E5", "air, an arrow, ord."),
    "hand-change": Golden("C5 as stopped -> D5@2 as ordinary, E5@3", "+ with an arrow to o, no second +"),
    "lines": Golden("xC5 .. xE5@1 :: xC5@2 -> xG4", "dotted, broken, and an arrow"),
    "rest-inside": Golden("C5, r, D5", "a quarter rest between two notes"),
    "bass-clef": Golden("C3, G2, E3, G3", "bass clef for the horn, new notation"),
    "clef-change": Golden("C3, G2, C5, G5", "one change, at the leap"),
    "words": Golden("C5", "the composer's words above", 'text: "as if \\"far\\" away \\\\ {"'),
}  # fmt: skip


def text_of(golden: Golden, technique: str = "") -> str:
    block = [f"technique: {technique}"] * bool(technique) + [f"contour: {golden.contour}", golden.keys]
    return golden.file + "gesture golden\n" + "".join(f"  {line}\n" for line in block if line)


@pytest.mark.parametrize("technique", registry.names(TECHNIQUES))
def test_each_technique(technique, engraved, snapshot):
    assert engraved(text_of(BY_TECHNIQUE[technique], technique))["golden"].ly == snapshot


@pytest.mark.parametrize("subject", BY_SUBJECT)
def test_each_subject(subject, engraved, snapshot):
    assert engraved(text_of(BY_SUBJECT[subject]))["golden"].ly == snapshot


PASSAGES = {
    # free: a band for heights since pitches stand beside; words ended; a level at the end clear of the next
    "free": "play: beacon, rest 4, knocks, rest 2, beacon up M2, C4 for 2 pp",
    # barred: values split at bar lines, rests by the bar, a rest filling the last bar
    "barred": "meter: 4/4\n  play: C4 for 3, beacon, rest 1/2, D4 for 3/2 accent, rest 8, knocks",
    # the mute announced in the rest before, taken back in the rest after
    "muted": "meter: 3/4\n  play: C4 for 1, rest 8, far, rest 9, C4 for 3",
    # repeat signs, no final bar line beside them
    "repeated": "meter: 4/4\n  play: C4 for 4, beacon\n  repeat: 2",
    "compound": "meter: 6/8\n  play: C4 for 1/2, D4 for 1, E4 for 3, rest 3/2",
}
PARTS = """
gesture beacon
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  dynamics: p < f@3 > p
gesture knocks
  technique: split-attack
  band: middle
  contour: high, mid, high, low
gesture far
  technique: muted
  contour: G4 __ D5 __ C5
passage golden
  {}
"""


@pytest.mark.parametrize("kind", PASSAGES)
def test_each_passage(kind, engraved, snapshot):
    assert engraved(PARTS.format(PASSAGES[kind]))["golden"].ly == snapshot


def test_concert_score_keeps_the_composers_spelling(engraved):
    """The composer's spelling is kept a fifth lower in the concert score, not redone."""
    text = "gesture golden\n  contour: F#4, Gb4, B^4, Ev5\n"
    assert engraved(text)["golden"].ly.count("fs'") == 1
    concert = engraved(text, pitches="sounding")["golden"].ly
    assert [line.strip() for line in concert.splitlines() if line.strip()[:1] in "abcdefg"] == [
        "b4", "cf'4", "eqs'4", "aqf'4",
    ]  # fmt: skip


def test_same_gesture_same_text(engraved):
    text = PARTS.format(PASSAGES["free"])
    assert engraved(text)["golden"] == engraved(text)["golden"]


def test_user_text_stands_in_quotes_only(engraved):
    """Whatever the text, each line of the score is our own command or note, or ends in one quoted string."""
    hostile = r"\\} #(system \"x\") %{"
    text = f'gesture golden\n  contour: C5\n  text: "{hostile}"\n  footnote: "{hostile}"\n  note: "{hostile}"\n'
    music = engraved(text)["golden"]
    assert r'\gsWord "\\} #(system \"x\") %{"' in music.ly
    assert (
        music.music.footnotes[0].text == '\\} #(system "x") %{ \\} #(system "x") %{'
    )  # the note after the footnote
    assert "system" not in music.ly.replace(r'\gsWord "\\} #(system \"x\") %{"', "")
