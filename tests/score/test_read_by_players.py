"""What players missed, or stumbled over, when they read pages."""

from __future__ import annotations

import pytest

from gesturesmith.checker import check_text
from gesturesmith.lang.parse import parse
from gesturesmith.score import gesture_score, passage_score
from gesturesmith.score.marks import LineStart, Script, SecondNote
from gesturesmith.score.rhythm import Tuplet
from gesturesmith.sheets.charts import map as technique_map
from gesturesmith.source import Source

HEAD = "instrument: horn\npitches: written\ntempo: 60\n"


def checked(body: str, head: str = HEAD):
    made = check_text(Source("a", head + body), suggestions=False)
    assert made.report.errors == ()
    return made


def signs(play: str, gestures: str = "") -> list[str]:
    """The signs over the notes of a passage, one for each note."""
    made = checked(f"{gestures}passage p\n  play: {play}\n")
    music = passage_score(made.passage_cases["p"], made.reading.piece.settings)
    heads = [e for e in music.events if e.head is not None]
    return [" ".join(m.sign for m in e.marks if isinstance(m, Script)) for e in heads]


GLISS = "gesture shut\n  technique: hand-gliss\n  contour: C5 -- B4@2\n  lasts: 4 beats\n"
UP = "gesture opened\n  technique: hand-gliss\n  contour: B4 as stopped -- C5@2 without stopped\n  lasts: 4 beats\n"
MUTED = "gesture muted\n  technique: muted\n  contour: C5\n"


@pytest.mark.parametrize(
    ("play", "over"),
    [
        ("shut, C5 for 2, D5 for 2", ["", "", "open", ""]),
        ("shut, rest 2, C5 for 2", ["", "", "open"]),
        ("shut, C5 for 2 as stopped, D5 for 2", ["", "", "stopped", "open"]),
        ("opened, C5 for 2", ["", "", ""]),
        ("shut, rest 8, muted, C5 for 2", ["", "", "", ""]),
    ],
)
def test_a_hand_that_a_glissando_has_closed_is_told_to_open(play, over):
    assert signs(play, GLISS + UP + MUTED) == over


@pytest.mark.parametrize(
    ("words", "first", "second"),
    [
        ("E5 / C5 for 4 pp", "pp", "pp"),
        ("E5 f / C5 for 4 pp", "f", "pp"),
        ("E5 / C5 for 4", "", ""),
        ("E5 for 4 p / C5 for 4", "p", ""),
    ],
)
def test_a_level_after_two_notes_is_for_both_players(words, first, second):
    tree, errors = parse(Source("a", f"part one\npassage p\n  one: {words}, C5 for 4\n"))
    item = tree.blocks[1].entries[0].value.items[0]
    assert errors == ()
    found = [" ".join(mark.text for mark in one.marks) for one in (item, item.below)]
    assert found == [first, second]


def test_a_text_comes_before_who_plays():
    head = "pitches: written\npart horns\n  instrument: horn\n  players: 2\n"
    made = check_text(Source("a", f'{head}passage p\n  horns: D5 for 3 a2 "solo"\n'), suggestions=False)
    assert [e.message for e in made.report.errors] == ["a text comes before `a2`, which ends the item"]


def test_what_has_no_effect_is_named_as_it_is_written():
    made = checked("gesture a\n  contour: C5 as stopped, C5 as closed\n")
    assert [f.text for g in made.report.gestures for f in g.findings] == [
        "`as closed` changes nothing: stopped is already in force"
    ]


@pytest.mark.parametrize(
    ("play", "naturals"),
    [
        ("trem, C5 for 1", [False]),
        ("trem, Ab4 for 1", [True]),
        ("trem up 1, trem", [True, False]),
    ],
)
def test_the_other_note_has_a_natural_only_where_there_may_be_doubt(play, naturals):
    trem = "gesture trem\n  tremolo: A4\n  contour: C5\n  lasts: 4 beats\n"
    made = checked(f"{trem}passage p\n  play: {play}\n")
    music = passage_score(made.passage_cases["p"], made.reading.piece.settings)
    assert [m.natural for e in music.events for m in e.marks if isinstance(m, SecondNote)] == naturals


@pytest.mark.parametrize("line", ["~~", "--", "::", "..", "->"])
def test_a_line_to_the_end_of_the_instrument_has_an_arrow(line):
    made = checked(f"gesture a\n  technique: half-valve\n  contour: xG4 {line} highest {line} xC5\n")
    music = gesture_score(made.cases["a"], made.reading.piece.settings)
    found = [m.arrow for e in music.events for m in e.marks if isinstance(m, LineStart)]
    assert found == [True, line == "->"]


def test_a_head_beyond_the_instrument_has_an_arrow_without_a_line():
    made = checked("gesture a\n  contour: highest, C5, lowest\n")
    music = gesture_score(made.cases["a"], made.reading.piece.settings)
    found = [m.sign for e in music.events for m in e.marks if isinstance(m, Script)]
    assert found == ["beyond-up", "beyond-down"]


def test_a_long_map_has_its_head_again(monkeypatch):
    settings = checked("gesture a\n  contour: C5\n").reading.piece.settings
    assert sum("gs-map-head" in str(part) for part in technique_map.CHART.body(settings)) == 1
    monkeypatch.setattr(technique_map, "_ON_A_PAGE", 40)
    found = [n for n, part in enumerate(technique_map.CHART.body(settings)) if "gs-map-head" in str(part)]
    assert len(found) == 2
    assert found[1] > 30


def test_the_bracket_counts_the_notes_under_it():
    ten = "C5, D5, E5, F5, G5, C5, D5, E5, F5, G5"
    made = checked(f"gesture a\n  contour: {ten}\n  lasts: 3 beats\n")
    music = gesture_score(made.cases["a"], made.reading.piece.settings)
    found = [run for part in music.parts for run in part.played.leaves if isinstance(run, Tuplet)]
    assert [(t.count, t.normal, len(t.leaves)) for t in found] == [(10, 6, 10)]
