"""What is made of a file for several instruments: the score, the parts, pictures of what stands in them."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

import gesturesmith
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.source import Source

TEXT = """title: "Harbour"
composer: "Nobody"
pitches: written
meter: 4/4
tempo: 72

part horn-1 "Horn 1"
  instrument: horn
  wording: de

part low "Trombone"
  instrument: trombone
  short: "Trb."

gesture call "Call"
  technique: half-valve
  contour: xG4 ~~ xD5@2 ~~ xF5@4
  lasts: 4 beats

passage opening "Opening"
  horn-1: call, rest 4
  low: rest 4, F3 for 4

passage tail
  low: F3 for 4
""".replace("low", "low-1")
REFUSED = TEXT.replace("low-1: F3 for 4", "low-1: C8 for 4")
OPTIONS = Options(stem="harbour")


def items_of(text=TEXT, **options):
    made = compile_text(Source("harbour.gesture", text), replace(OPTIONS, **options))
    return {f"{item.place} ({item.kind})": item for item in made.items}


def test_the_score_the_parts_and_their_pictures():
    assert [*items_of()] == [
        "harbour (page)",
        "harbour/opening (score)",
        "harbour/tail (score)",
        "harbour/horn-1 (page)",
        "harbour/horn-1/call (snippet)",
        "harbour/horn-1/opening (snippet)",
        "harbour/horn-1/tail (snippet)",
        "harbour/low-1 (page)",
        "harbour/low-1/opening (snippet)",
        "harbour/low-1/tail (snippet)",
    ]


def test_one_thing_alone():
    assert [*items_of(only="tail")] == [
        "harbour/tail (score)",
        "harbour/horn-1/tail (snippet)",
        "harbour/low-1/tail (snippet)",
    ]
    assert [*items_of(only="call")] == ["harbour/horn-1/call (snippet)"]


def test_names_by_a_pattern():
    pages = [n for n in items_of(name="{title}-{part}") if n.endswith("(page)")]
    assert pages == ["Harbour-Score (page)", "Harbour-Horn_1 (page)", "Harbour-Trombone (page)"]
    pages = [n for n in items_of(name="{title}") if n.endswith("(page)")]
    assert pages == ["Harbour (page)", "Harbour/horn-1 (page)", "Harbour/low-1 (page)"]


def test_the_score_is_written_as_asked_and_the_parts_always_for_their_players():
    for pitches in ("written", "sounding"):
        made = items_of(pitches=pitches)
        assert {m.pitches for m in made["harbour (page)"].scores} == {pitches}
        assert {m.pitches for m in made["harbour/horn-1 (page)"].scores} == {"written"}
        told = "This is a score in C" if pitches == "sounding" else "This is a transposed score"
        assert told in made["harbour (page)"].book


def test_the_score_has_the_language_of_the_file_and_a_part_its_own():
    made = items_of()
    assert "Passages" in made["harbour (page)"].book
    assert "Passagen" not in made["harbour (page)"].book
    assert "Passagen" in made["harbour/horn-1 (page)"].book
    assert "Drücke" in made["harbour/horn-1 (page)"].book or "Ventile" in made["harbour/horn-1 (page)"].book
    assert "Ventile" not in made["harbour (page)"].book


def test_names_stand_before_the_staves():
    book = items_of()["harbour (page)"].book
    assert re.findall(r'gs-staff-name "([^"]*)" "([^"]*)" shortInstrumentName = \\markup "([^"]*)"', book) == 2 * [
        ("Horn 1", "Horn in F", "Hn."),
        ("Trombone", "", "Trb."),
    ]
    # In a score in C no staff is that of a horn in F.
    assert '"Horn in F"' not in items_of(pitches="sounding")["harbour (page)"].book


@pytest.mark.parametrize("players", ["", "  players: 2\n"])
@pytest.mark.parametrize(
    ("title", "head"),
    [
        ("Horn 1", 'instrument = "Horn 1 (Horn in F)"'),
        ("Horn", 'instrument = "Horn in F"'),
        ("Solo Horn in F", 'instrument = "Solo Horn in F"'),
    ],
)
def test_the_page_of_a_part_says_for_which_instrument_it_is_written(title, head, players):
    """Somebody called "Horn 1" does not know whether the notes are in F. What sounds as written needs no more."""
    made = items_of(TEXT.replace('"Horn 1"\n', f'"{title}"\n{players}'))
    assert head in made["harbour/horn-1 (page)"].book
    assert 'instrument = "Trombone"' in made["harbour/low-1 (page)"].book


def test_the_tempo_stands_once_above_a_score():
    assert items_of()["harbour (page)"].book.count(r"\gsTempo ") == 2  # two passages


def test_a_passage_that_one_part_cannot_play_is_left_out_of_all_and_told():
    made = items_of(REFUSED)
    assert [n for n in made if "tail" in n] == []
    for name in ("harbour (page)", "harbour/low-1 (page)"):
        assert "Trombone: C8; the highest pitch any source gives" in made[name].book
    drafts = items_of(REFUSED, draft=True)
    assert "harbour/tail (score)" in drafts
    assert "DRAFT" in drafts["harbour (page)"].book


def test_one_notes_page_for_all_parts():
    made = items_of(notes=NotesOptions())
    notes = made["harbour-notes (page)"].book
    assert "Horn 1: the part sounds a perfect fifth lower than written." in notes
    assert "Trombone: the part sounds as written." in notes
    assert {m.footnotes for m in made["harbour (page)"].scores} == {()}
    assert {m.footnotes for m in made["harbour/horn-1 (page)"].scores} == {()}
    assert "see-notes" not in made["harbour (page)"].book
    assert "performance notes" in made["harbour (page)"].book


def test_footnotes_of_all_lines_are_counted_in_one_row():
    text = TEXT.replace("low-1: rest 4, F3 for 4", "low-1: slide, slide")
    text += (
        'gesture slide\n  technique: slide-gliss\n  contour: F3 -- C3\n  lasts: 4 beats\n  footnote: "Slowly."\n'
    )
    book = items_of(text)["harbour/opening (score)"].book
    assert [n for n, _ in re.findall(r'\\gs-note "(\d)" "([^"]*)"', book)] == ["1", "2"]
    assert book.index('\\gs-note "2" "Slowly."') > book.index('\\gs-note "1"')


@pytest.mark.parametrize("pitches", ["written", "sounding"])
def test_what_was_kept_is_what_would_be_made(pitches, tmp_path):
    from gesturesmith.cache import Store

    store = Store(tmp_path)
    source, options = Source("harbour.gesture", TEXT), replace(OPTIONS, pitches=pitches)
    fresh = compile_text(source, options)
    first, again = compile_text(source, options, store), compile_text(source, options, store)
    assert first.items == again.items == fresh.items
    # Another part is longer now: the horn rests longer, though nothing of its own has changed.
    longer = Source("harbour.gesture", TEXT.replace("low-1: F3 for 4", "low-1: F3 for 4, F3 for 4"))
    assert compile_text(longer, options, store).items == compile_text(longer, options).items


def test_the_library_knows_parts():
    made = gesturesmith.engrave(TEXT)
    assert [(s.name, s.report.part.name, s.music is not None) for s in made.snippets] == [
        ("call", "horn-1", True),
        ("opening", "horn-1", True),
        ("opening", "low-1", True),
        ("tail", "horn-1", True),
        ("tail", "low-1", True),
    ]
    files = {str(f.place) for f in gesturesmith.render(TEXT, "ily").files}
    assert files == {
        *(f"text/horn-1/{n}.ily" for n in ("call", "opening", "tail", "gesturesmith")),
        *(f"text/low-1/{n}.ily" for n in ("opening", "tail", "gesturesmith")),
    }


def test_sheets_are_for_the_parts_that_play_the_gesture():
    from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet

    text = TEXT + "exercises week\n  from: call\n  start: G4, A4\n"
    made = compile_sheet((Source("harbour", text),), SheetOptions(stem="harbour"))
    assert [str(item.place) for item in made.items] == ["harbour/horn-1/week"]
    assert [(e.name, e.part.name, e.made) for e in made.report.exercises] == [("week", "horn-1", 2)]


TWO = """pitches: written
meter: 4/4
part horns "Horns 1, 2"
  instrument: horn
  players: 2
part tuba
  instrument: tuba
gesture call
  contour: G4, C5
  lasts: 4 beats
gesture answer
  contour: E4, G4
  technique: flutter-tongue
  lasts: 4 beats
passage one
  horns: call, C5 for 4 first, rest 4, call, call second, call a2
  tuba: rest 24
passage two
  horns: call / answer, C5 for 4 first
  tuba: C2 for 8
"""


def words_of(music):
    from gesturesmith.score.marks import Words

    return [
        (int(part.at), m.text)
        for part in music.parts
        for e in part.played.events
        for m in e.marks
        if type(m) is Words
    ]


def test_a_line_says_who_of_two_players_plays_where_it_changes():
    (line,) = items_of(TWO)["harbour/horns/one (snippet)"].scores
    assert words_of(line) == [(0, "a 2"), (4, "1."), (16, "2."), (20, "a 2")]
    german = items_of(TWO.replace("  players: 2", "  players: 2\n  wording: de"))
    assert words_of(german["harbour/horns/one (snippet)"].scores[0])[0] == (0, "zu 2")


def test_where_two_players_are_divided_each_has_a_staff():
    made = items_of(TWO)
    score = made["harbour (page)"]
    assert [(m.name, m.instrument) for m in score.scores] == [
        *(("one", i) for i in ("horn", "tuba")),
        *(("two", i) for i in ("horn", "horn", "tuba")),
    ]
    assert re.findall(r'gs-staff-name "([^"]*)" "([^"]*)"', score.book)[2:] == [
        ("Horns 1, 2", "1."),
        ("Horns 1, 2", "2."),
        ("tuba", ""),
    ]
    page = made["harbour/horns (page)"]
    assert [m.name for m in page.scores] == ["one", "two", "two"]
    assert page.book.count("StaffGroup") == 1
    assert "harbour/horns/two (score)" in made
    first, second = page.scores[1:]
    assert [part.name for part in first.parts] == ["call", ""]
    assert [part.name for part in second.parts] == ["answer", ""]


def test_a_notes_page_explains_what_only_the_second_plays():
    made = items_of(TWO, notes=NotesOptions())
    assert "Flutter" in made["harbour-notes (page)"].book
    numbers = [m.numbers for music in made["harbour/horns (page)"].scores for m in music.footnote_marks]
    assert numbers == [("1",)]


def test_cues_stand_in_parts_where_they_are_wanted():
    text = TEXT.replace("rest 4\n  low-1: rest 4, F3 for 4", "rest 20, C5 for 4\n  low-1: F3 for 24, F3 for 4")
    made = items_of(text, cues=True)
    page = made["harbour/horn-1 (page)"]
    assert r"\addQuote" in page.book.split(r"\book", 1)[0]
    assert r'\gsCue #DOWN "low-1-opening" "Trombone"' in page.book
    for name, item in made.items():
        if item is not page:
            assert "gsCue" not in item.book, name
    assert "gsCue" not in "".join(item.book for item in items_of(text).values())
