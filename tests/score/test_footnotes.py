"""One number for each text, in order of first appearance; the composer's own text instead of ours."""

from __future__ import annotations

import re

import pytest

from gesturesmith.sheets import page
from gesturesmith.sheets._footnotes import room

GESTURES = """
gesture first
  technique: half-valve
  contour: xC5
gesture second
  technique: half-valve + flutter-tongue
  contour: xC5
gesture third
  technique: flutter-tongue
  contour: C5
  note: "Softly."
gesture fourth
  technique: half-valve
  contour: xC5
  footnote: "Ours."
gesture fifth
  contour: C5
  note: "Only this."
gesture sixth
  technique: flutter-tongue
  contour: C5, D5 as growl
passage one
  play: first, second, first, fourth, first
"""


def marks(ly: str) -> list[str]:
    return re.findall(r'\\gsMark "([^"]*)"', ly)


def test_numbers_within_a_gesture(engraved):
    musics = engraved(GESTURES)
    assert marks(musics["first"].ly) == ["1"]
    assert marks(musics["second"].ly) == ["1, 2"]
    assert marks(musics["sixth"].ly) == ["1", "2"]
    assert [f.number for f in musics["second"].music.footnotes] == ["1", "2"]


def test_own_text_replaces_and_note_adds(engraved):
    musics = engraved(GESTURES)
    assert [f.text for f in musics["fourth"].music.footnotes] == ["Ours."]
    assert [f.text for f in musics["fifth"].music.footnotes] == ["Only this."]
    (flutter,) = musics["third"].music.footnotes
    assert flutter.text.endswith(" Softly.")
    assert flutter.text.startswith(musics["sixth"].music.footnotes[0].text)


def test_a_passage_marks_each_text_once(engraved):
    music = engraved(GESTURES)["one"]
    assert marks(music.ly) == ["1", "2", "3"]
    assert music.music.footnotes[2].text == "Ours."


def test_a_page_carries_the_texts_at_their_marks(engraved):
    """The stencils number them: each mark carries its texts."""
    musics = engraved(GESTURES)
    settings = musics.pop("")
    book = page.book(tuple(musics.values()), settings, output="page")
    assert "gsMark" not in book
    at_marks = [re.findall(r'\("([^"]*)" \. #[tf]\)', m) for m in re.findall(r"gsPageMark #'(\(.*\))\n", book)]
    assert at_marks == [
        [f.text for f in one.music.footnotes if f.number in mark.numbers]
        for one in musics.values()
        for mark in one.music.footnote_marks
    ]


def test_numbers_of_a_notes_page_stand_as_they_are(engraved):
    musics = engraved(GESTURES)
    settings = musics.pop("")
    noted = tuple(m.noted({f.number: f"1{f.number}" for f in m.music.footnotes}) for m in musics.values())
    book = page.book(noted, settings, output="page")
    assert "gsPageMark" not in book
    assert marks(book)[:3] == ["11", "11, 12", "11"]


def test_room_is_kept_for_every_text_a_page_may_need(engraved):
    """Wherever a page begins, room for each text on it is reserved at its first mark there, or on every page."""
    text = "".join(
        f"gesture {a}{b}\n  technique: {technique}\n  contour: C5\n"
        for a in "pqrst"
        for b, technique in zip("uvwxyz", ("growl", "flutter-tongue") * 3, strict=True)
    )
    musics = engraved(text)
    settings = musics.pop("")
    shown = tuple(one.music for one in musics.values())
    kept = room(shown, settings)
    for start in range(len(shown)):
        first: dict[str, int] = {}
        for number in range(start, len(shown)):
            for footnote in shown[number].footnotes:
                first.setdefault(footnote.text, number)
        near = {t: n for t, n in first.items() if n < start + 12}
        lacking = [t for t, n in near.items() if (n, t) not in kept.counted]
        assert len(lacking) <= len(kept.common)
    assert len(kept.counted) < len(shown)


def test_two_languages_in_one_footnote(engraved):
    head = "instrument: horn\npitches: written\nwording: en, de\n"
    (both,) = engraved(head + "gesture one\n  technique: growl\n  contour: C5\n")["one"].music.footnotes
    (english,) = engraved("gesture one\n  technique: growl\n  contour: C5\n")["one"].music.footnotes
    assert both.text.startswith(english.text + " / ")


def test_cautions_of_what_tires(engraved):
    assert engraved("gesture one\n  technique: growl\n  contour: C5\n")["one"].music.cautions
    assert engraved("gesture one\n  contour: C5, D5 as growl\n")["one"].music.cautions  # on single notes as well
    assert engraved("gesture one\n  contour: C5\n")["one"].music.cautions == ()


def test_a_footnote_is_told_by_the_instrument_and_by_the_way_of_a_bend(engraved):
    """A trombone has no valves to hold still, and a bend drawn upwards must not go down."""
    gestures = (
        "gesture sweep\n  technique: harmonic-gliss\n  contour: Bb3 ~~ Bb4\n"
        "gesture falling\n  technique: bend\n  contour: F3 -- Eb3 -- F3\n"
        "gesture rising\n  technique: bend\n  contour: F3 -- E3 -- F3+30c -- F3\n"
    )
    slide = engraved("instrument: trombone\n" + gestures)
    valves = engraved("instrument: euphonium\n" + gestures)
    (sweep,), (down,), (up,) = (slide[name].music.footnotes for name in ("sweep", "falling", "rising"))
    assert "slide" in sweep.text
    assert "valve" not in sweep.text
    assert "valves" in valves["sweep"].music.footnotes[0].text
    assert "down" in down.text
    assert "down" not in up.text


def test_a_note_is_added_to_a_footnote_as_to_the_standard_wording(engraved):
    """The language page: `footnote` replaces the standard wording, `note` is added to either."""
    text = 'gesture one\n  technique: growl\n  contour: C5\n  footnote: "Like a dog."\n  note: "A small one."\n'
    (footnote,) = engraved(text)["one"].music.footnotes
    assert footnote.text == footnote.own == "Like a dog. A small one."


@pytest.mark.parametrize(
    ("sing", "wanted", "unwanted"),
    [("", "another octave", "diamond"), ("\n  sing: C4 -- D4", "at the pitch written", "octave")],
)
def test_the_octave_is_left_to_the_voice_only_where_nothing_is_written_to_sing(sing, wanted, unwanted, engraved):
    text = f"gesture one\n  technique: multiphonic\n  contour: F3{sing}\n  lasts: 4 beats\n"
    (footnote,) = engraved(text)["one"].music.footnotes
    assert wanted in footnote.text
    assert unwanted not in footnote.text


def test_no_caution_leaves_the_octave_to_the_voice(engraved):
    """It would contradict a written sung line; if there is none, the footnote says so."""
    text = "gesture one\n  technique: multiphonic\n  contour: F3\n  sing: C4 -- D4\n  lasts: 4 beats\n"
    cautions = engraved(text)["one"].music.cautions
    assert any("hoarse" in caution for caution in cautions)
    assert not any("octave" in caution for caution in cautions)


@pytest.mark.parametrize(
    ("contour", "marks"),
    [("C5 -- D5@2 as double-tongue", 0), ("C5 __ D5 as double-tongue", 0), ("C5 __ D5 as double-tongue, E5", 1)],
)
def test_how_a_note_is_tongued_has_its_mark_at_a_tongued_note(contour, marks, engraved):
    ly = engraved(f"gesture one\n  contour: {contour}\n  lasts: 6 beats\n")["one"].ly
    assert ly.count(r"\gsMark") == ly.count(r"\gsDots") == marks
    assert marks == 0 or ly.index(r"\gsMark") > ly.index("e''")
