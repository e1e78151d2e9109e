"""The settings of a file: written values and defaults."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith import instruments
from gesturesmith.instruments.profile import to_toml
from gesturesmith.lang import parse
from gesturesmith.model.reading import read
from gesturesmith.model.resolve import resolve
from gesturesmith.source import Source

G = "gesture a\n  contour: G4\n"


def test_what_is_not_written_has_its_default(piece):
    made = piece(G).settings
    assert (made.tempo, made.tempo_given, made.tempo_text, made.meter) == (60, False, None, None)
    assert (made.title, made.subtitle, made.composer, made.part) == (None, None, None, None)
    assert (made.wording, made.heights, made.accidentals, made.fingerings) == (("en",), "auto", "stein", "needed")
    assert (made.paper_mm, made.paper_name, made.staff_mm) == ((210, 297), "a4", 7)


def test_everything_that_can_be_written(piece):
    top = (
        'language: 1\ninstrument: horn\npitches: sounding\ntempo: "Slow, distant" 72.5\nmeter: 3/8\n'
        'title: "T"\nsubtitle: "S"\ncomposer: "C"\npart: "P"\nwording: de, fr\nheights: lines\n'
        "accidentals: arrows\nfingerings: all\npaper: 230 x 310 mm\nstaff: 6.5 mm\n"
    )
    made = piece(G, top).settings
    assert (made.pitches, made.tempo, made.tempo_text, made.meter) == (
        "sounding",
        Fraction("72.5"),
        "Slow, distant",
        (3, 8),
    )
    assert (made.title, made.subtitle, made.composer, made.part) == ("T", "S", "C", "P")
    assert (made.wording, made.heights, made.accidentals, made.fingerings) == (
        ("de", "fr"),
        "lines",
        "arrows",
        "all",
    )
    assert (made.paper_mm, made.paper_name, made.staff_mm) == ((230, 310), "", Fraction("6.5"))


def test_letter_paper(piece):
    made = piece(G, "instrument: horn\npitches: written\npaper: letter\n").settings
    assert (made.paper_mm, made.paper_name) == (
        (Fraction("215.9"), Fraction("279.4")),
        "letter",
    )  # 8.5 by 11 inches


def test_pitches_may_be_left_out_where_nothing_transposes(resolved):
    made, errors = resolved("instrument: trombone\n" + G)
    assert errors == ()
    assert made.settings.pitches == "written"
    assert made.gestures[0].points[0].pitch.written == made.gestures[0].points[0].pitch.sounding


@pytest.mark.parametrize(
    "top", ["", "instrument: horn\n", "pitches: written\n", "instrument: hron\npitches: written\n"]
)
def test_nothing_is_known_without_instrument_and_pitches(resolved, top):
    made, errors = resolved(top + G)
    assert made is None
    assert len(errors) == 1


def test_an_instrument_may_be_given_from_outside():
    source = Source("test.gesture", "instrument: horn\npitches: written\n" + G)
    reading = read(source, instrument=instruments.get("trumpet"))
    assert reading.errors == ()
    made = reading.piece
    assert made.settings.instrument.key == "trumpet"
    assert made.gestures[0].points[0].sounding_cents == 6500  # a whole tone below G4


def test_an_instrument_from_a_file_beside_the_piece(tmp_path):
    (tmp_path / "my own.toml").write_text(to_toml(instruments.get("horn")), encoding="utf-8")
    reading = read(Source("test.gesture", 'instrument: "my own.toml"\npitches: written\n' + G), folder=tmp_path)
    assert reading.errors == ()
    assert reading.piece.gestures[0].points[0].sounding_cents == 6000


def test_resolving_opens_no_file(tmp_path, monkeypatch):
    """Profiles are read beforehand; a missing one is reported."""
    (tmp_path / "my own.toml").write_text(to_toml(instruments.get("horn")), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    tree, _ = parse(Source("test.gesture", 'instrument: "my own.toml"\npitches: written\n' + G))
    made, errors = resolve(tree)
    assert made is None
    assert [(e.rule, "it was not read" in e.message) for e in errors] == [("unreadable-profile", True)]
    made, errors = resolve(tree, profile=(instruments.get("trumpet"), ()))
    assert errors == ()
    assert made.settings.instrument.key == "trumpet"


def test_every_mistake_of_a_profile_is_told_at_its_path(tmp_path):
    (tmp_path / "bad.toml").write_text("instrument_profile = 1\nkind = 3\nhand = 7\n", encoding="utf-8")
    reading = read(Source("test.gesture", 'instrument: "bad.toml"\npitches: written\n' + G), folder=tmp_path)
    errors = reading.errors
    assert reading.piece is None
    assert {e.rule for e in errors} == {"unreadable-profile"}
    assert {e.span.column for e in errors} == {13}
    assert any("line 2" in e.message for e in errors)
    assert any("line 3" in e.message for e in errors)
