"""The reader on deliberately wrong pages: each fault is found, and none on the correct page."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

import pytest
from reading import compare, dump, notation, pages, says
from sampling import sample

from gesturesmith.model.reading import read
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

# Altered notes recur in their bar, after the bar line, in another octave, tied; a triplet; a clef change.
TUNE = """instrument: horn
pitches: written
gesture far
  contour: G2, A2, Bb2, G2
  lasts: 4 beats
  dynamics: p < f@2
box ground
  play: G3 for 1, rest 1, G3 for 1
  lasts: 9 beats
gesture shaken
  technique: valve-trill
  trill: half
  contour: E4
  lasts: 2 beats
gesture wide
  tremolo: G3
  contour: Bb3
  lasts: 2 beats
gesture coloured
  technique: timbre-trill
  contour: G4
  fingering: F 0 / Bb 1
  lasts: 2 beats
passage p
  meter: 3/4
  bar: 12
  play: F#4 for 3/2 p accent, G4 for 1/2 say "tu" "off", F#4 for 1, F#4 for 1, F4 for 1, F#5 for 2 sixteenths,
    G4 for 1/2, C5 for 3/2, Eb4 for 1/3, E4 for 1/3, Eb4 for 1/3,
    B4 grace, D5 grace, C5 for 1, A4 grace, C5 for 1, rest 3, far, rest 2, ground, shaken, wide, coloured,
    mark A, tempo 90, double bar, key Bb major, Bb4 for 3, ritardando to 60 over 3, G4 for 3, meter 2/4, Eb4 for 2
"""


class Break(NamedTuple):
    """A change to the LilyPond text, and what the reader must report."""

    change: Callable[[str], str]
    said: str


def _in_staff(command: str) -> Callable[[str], str]:
    return lambda book: book.replace(r"\gsBarred }", rf"\gsBarred {command} }}")


def _late_clef(book: str) -> str:
    """The clef applies where it should, but is printed one note later."""
    bass = r"\set Staff.middleCPosition = #6 \set Staff.middleCClefPosition = #6"
    return re.sub(r'\\clef "bass"\n(\s+\S+)\n', lambda m: f'{bass}\n{m[1]}\n\\clef "bass"\n', book)


def _later(book: str, command: str) -> str:
    """A command one note later than it should be."""
    return re.sub(rf"\n\s+{re.escape(command)}\n(\s+\S+)\n", lambda m: f"\n{m[1]}\n{command}\n", book)


def _without_a_bar(book: str) -> str:
    return book.replace(r"\time 3/4", r"\time 3/4 \set Timing.measureLength = #(ly:make-moment 4/4)")


BREAKS = {
    # An accidental missing from the first bar, and one assumed to apply after the bar line.
    "accidentals suppressed": Break(_in_staff(r"\override Accidental.stencil = ##f"), "pitch: F4 on the page, F#4"),
    "accidentals remembered": Break(_in_staff(r"\accidentalStyle no-reset"), "note 4 at beat 3: pitch: F4 on the"),
    "another clef": Break(_in_staff(r'\override Clef.glyph-name = #"clefs.F"'), "pitch: E#3 on the page, F#4"),
    "a late clef": Break(_late_clef, "pitch: "),
    "a tuplet without its number": Break(_in_staff(r"\omit TupletNumber"), "the values of the note"),
    "another tuplet": Break(lambda b: b.replace(r"\tuplet 3/2", r"\tuplet 6/5"), "the values of the note"),
    "transposed": Break(
        lambda b: b.replace(r"\time 3/4", r"\time 3/4 \transpose c d {").replace('\\bar "|."', "}"), "G#4 on"
    ),
    "another meter": Break(lambda b: b.replace(r"\time 3/4", r"\time 4/4"), "meter: the page says (4, 4)"),
    "longer bars": Break(_without_a_bar, "bar 1 has 4 beats in 3"),
    "no bar lines": Break(_in_staff(r"\omit BarLine"), "no bar line"),
    "a tie less": Break(_in_staff(r"\omit Tie"), "notes: "),
    "another head": Break(_in_staff(r"\override NoteHead.style = #'cross"), "head: x on the page, normal"),
    "no levels": Break(_in_staff(r"\omit DynamicText"), "levels: "),
    "a late level": Break(
        lambda b: b.replace("    \\f\n", "").replace("    g,4\n", "    g,4 \\f\n"), "level f: beat"
    ),
    "no hairpin": Break(_in_staff(r"\omit Hairpin"), "hairpins: "),
    "no accent": Break(_in_staff(r"\omit Script"), "marks: nothing on the page, accent"),
    "another tempo": Break(lambda b: b.replace('\\gsTempo "" "60"', '\\gsTempo "" "66"'), "tempo: 66"),
    "bars counted from elsewhere": Break(
        lambda b: b.replace("gsBarNumbers #12", "gsBarNumbers #13"), "bar 13 at beat 0"
    ),
    "no bar numbers": Break(lambda b: b.replace(r"\gsBarNumbers #12", ""), "no bar numbers"),
    "played twice": Break(lambda b: b.replace('\\bar "|."', '\\bar ":|."'), "played 2 times"),
    "no frame": Break(_in_staff(r"\omit GestureFrame"), "boxes: none on the page"),
    "a frame round less": Break(lambda b: _later(b, r"\gsFrame"), "boxes: "),
    "another time for a box": Break(lambda b: b.replace('"9 beats"', '"6 beats"'), "repeated: "),
    "no line after a box": Break(_in_staff(r"\omit GestureGoesOn"), "repeated: none on the page"),
    "no strokes": Break(_in_staff(r"\omit StemTremolo"), "not repeated on the page, repeated every 1/4 beats"),
    "other strokes": Break(lambda b: b.replace(r"\gsStrokes #16", r"\gsStrokes #8"), "repeated every 1/2 beats on"),
    "graces without a stroke": Break(
        lambda b: b.replace(r"\slashedGrace", r"\grace").replace(r"\gsGraceSlash", ""),
        "grace note: plain on the page, slashed in the file",
    ),
    "a grace less": Break(lambda b: re.sub(r"\\slashedGrace \{\s+\S+\s+\}", "", b), "notes: "),
    "a grace in time": Break(lambda b: b.replace(r"\slashedGrace {", "{"), "the page, "),
    "no syllable": Break(_in_staff(r"\omit GestureRowText"), "said: nothing on the page, syllable tu@1.5"),
    "another syllable": Break(lambda b: b.replace('"tu"', '"ku"'), "said: syllable ku@1.5 on the page"),
    "other words": Break(lambda b: b.replace('"off"', '"on"'), "'off' at beat 1.5 does not stand above"),
    "no trill": Break(lambda b: b.replace(r"\gsTrillTo f'", ""), "no sign on the page"),
    "another trill": Break(
        lambda b: b.replace(r"\gsTrillTo f'", r"\gsTrillTo fs'"), "F#4 on the page, F4 in the file"
    ),
    "no other note": Break(_in_staff(r"\omit GestureSecond"), "none on the page, G3 in the file"),
    "another other note": Break(lambda b: b.replace(r"\gsSecond g", r"\gsSecond a"), "A3 on the page, G3"),
    "one fingering of two": Break(lambda b: b.replace("F 0 / Bb 1", "F 0"), "F 0 / Bb 1 in the file"),
    "another letter": Break(lambda b: b.replace('\\gsRehearsal "A"', '\\gsRehearsal "B"'), "mark B; "),
    "another tempo later": Break(lambda b: b.replace('\\gsTempo "" "90"', '\\gsTempo "" "96"'), "tempo 96; "),
    "no double bar": Break(lambda b: b.replace('\\bar "||"', ""), "changes: "),
    "another key": Break(lambda b: b.replace("\\key bf \\major", "\\key f \\major"), "key -1; "),
    "no new meter": Break(lambda b: b.replace("\\time 2/4", ""), "beats in "),
    "no word for getting slower": Break(_in_staff(r"\omit TextSpanner"), "changes: "),
    "faster": Break(lambda b: b.replace('"rit."', '"accel."'), "gradually acc "),
    "a dot less": Break(_in_staff(r"\omit Dots"), "the values of the note"),
}


TRIED = sample(tuple(BREAKS), 4)


@pytest.fixture(scope="module")
def broken(tmp_path_factory) -> dict[str, list[str]]:
    """The reader's report on the correct page, under "", and on each broken one; all in one run."""
    source = Source("tune", TUNE)
    piece = read(source).piece
    assert piece is not None
    job = pages.Job()
    pages.add_file(job, source)
    (whole,) = job.books
    assert whole.count("\\score {") == len(job.scores) == 5
    books = [whole, *(BREAKS[name].change(whole) for name in TRIED)]
    assert len(set(books)) == len(books)
    job.books = books
    # LilyPond's warnings about some of these do not matter here.
    scores = dump.read(pages.whole(job), tmp_path_factory.mktemp("breaks"), quiet=False)
    said = says.of_passage(piece.passages[0])
    return {
        name: compare.differences(notation.read(scores[5 * n + 4]), said) for n, name in enumerate(("", *TRIED))
    }


def test_the_page_as_it_is_says_what_the_file_says(broken):
    assert broken[""] == []


@pytest.mark.parametrize("name", TRIED)
def test_a_break_is_found(broken, name):
    assert any(BREAKS[name].said in line for line in broken[name]), broken[name]
