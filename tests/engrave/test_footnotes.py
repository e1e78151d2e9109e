"""One number for each text, in order of first appearance; the composer's own text instead of ours."""

from __future__ import annotations

import re

from gesturesmith.sheets import page

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
    assert [f.number for f in musics["second"].footnotes] == ["1", "2"]


def test_own_text_replaces_and_note_adds(engraved):
    musics = engraved(GESTURES)
    assert [f.text for f in musics["fourth"].footnotes] == ["Ours."]
    assert [f.text for f in musics["fifth"].footnotes] == ["Only this."]
    (flutter,) = musics["third"].footnotes
    assert flutter.text.endswith(" Softly.")
    assert flutter.text.startswith(musics["sixth"].footnotes[0].text)


def test_a_passage_marks_each_text_once(engraved):
    music = engraved(GESTURES)["one"]
    assert marks(music.ly) == ["1", "2", "3"]
    assert music.footnotes[2].text == "Ours."


def test_a_page_numbers_over_all(engraved):
    musics = engraved(GESTURES)
    settings = musics.pop("")
    book = page.book(tuple(musics.values()), settings, output="page")
    assert marks(book) == ["1", "1, 2", "3", "4", "5", "2", "6", "1", "2", "4"]
    # Each text stands beside its first mark, once.
    assert [int(n) for n in re.findall(r'gs-note "(\d+)"', book)] == [1, 2, 3, 4, 5, 6]


def test_two_languages_in_one_footnote(engraved):
    head = "instrument: horn\npitches: written\nwording: en, de\n"
    (both,) = engraved(head + "gesture one\n  technique: growl\n  contour: C5\n")["one"].footnotes
    (english,) = engraved("gesture one\n  technique: growl\n  contour: C5\n")["one"].footnotes
    assert both.text.startswith(english.text + " / ")


def test_cautions_of_what_tires(engraved):
    assert engraved("gesture one\n  technique: growl\n  contour: C5\n")["one"].cautions
    assert engraved("gesture one\n  contour: C5\n")["one"].cautions == ()
