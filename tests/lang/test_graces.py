"""Grace notes as they are written: each at the note it belongs to, and a message for each that can be none."""

from __future__ import annotations

import pytest

from gesturesmith.lang import parse
from gesturesmith.lang.format import format_text
from gesturesmith.source import Source


def tree(contour: str):
    source = Source("a", f"instrument: horn\ngesture a\n  contour: {contour}\n")
    file, errors = parse(source)
    assert not errors, errors
    return file.blocks[0].get("contour").value


def test_graces_belong_to_the_note_after_them_and_the_last_to_the_last() -> None:
    found = tree("G4 grace, A4 grace __ C5, D5 accent, xE5 grace staccato, F5 grace")
    assert [p.height.letter for p in found.points] == ["C", "D"]
    assert [line.kind for line in found.lines] == ["none"]
    one, two = found.points
    assert [(g.point.height.letter, g.line.kind) for g in one.graces] == [("G", "none"), ("A", "slur")]
    assert [(g.point.height.letter, g.point.height.about) for g in two.after] == [("E", True), ("F", False)]
    assert [m.text for m in two.after[0].point.marks] == ["staccato"]


@pytest.mark.parametrize(
    ("contour", "joined"),
    [
        ("C5, G4 grace, D5", "none"),
        ("C5, G4 grace __ D5", "none"),
        ("C5 __ G4 grace __ A4 grace __ D5", "slur"),
        ("C5 __ G4 grace ~~ D5", "slur"),
    ],
)
def test_notes_with_graces_between_them_are_slurred_where_nothing_is_tongued(contour: str, joined: str) -> None:
    assert [line.kind for line in tree(contour).lines] == [joined]


# What is written, the marked place, part of the message.
MISTAKES = [
    ("G4, A4 grace, r", "A4 grace", "silence"),
    ("r, A4 grace", "A4 grace", "silence before it"),
    ("A4 grace", "A4 grace", "add the note after it"),
    ("G4, A4@1 grace, B4", "@1", "no place of its own"),
    ("G4, A4 grace as stopped, B4", "stopped", "at the note"),
    ("G4, A4 grace without growl, B4", "growl", "at the note"),
    ("G4, A4 grace fermata, B4", "fermata", "`tenuto` or `marcato`"),
    ("G4, A4 grace ff, B4", "ff", "belongs at the note"),
    ("G4, high grace, B4", "high grace", "a grace note is a pitch"),
    ("G4 -- A4 grace, B4", "--", "leads to a grace note"),
    ("G4 __ A4 grace, B4", ",", "goes on to its note"),
    ("G4, B4 ~~ A4 grace", "~~", "leads to a grace note"),
    ("G4 ~~ B4, r, G4 -- C5, A4 grace", "A4 grace", "no time"),
    ("G4, A4 grace grace, B4", "grace", "already has `grace`"),
]


@pytest.mark.parametrize(("contour", "marked", "message"), MISTAKES)
def test_what_no_grace_can_be(contour: str, marked: str, message: str) -> None:
    line = f"  contour: {contour}"
    _, errors = parse(Source("a", f"instrument: horn\ngesture a\n  band: middle\n{line}\n"))
    assert len(errors) == 1, errors
    assert message in errors[0].message
    span = errors[0].span
    assert line[span.column - 1 : span.end_column - 1] == marked


@pytest.mark.parametrize(
    ("play", "message"),
    [
        ("G4 grace for 1, C5 for 2", "no length of its own"),
        ("G4 grace, rest 2", "the pitch after it"),
        ("G4 grace, a", "the pitch after it"),
        ("C5 for 1, G4 grace", "the pitch after it"),
    ],
)
def test_graces_in_a_passage_stand_before_a_pitch(play: str, message: str) -> None:
    text = f"instrument: horn\ngesture a\n  contour: C5\npassage p\n  play: {play}\n"
    _, errors = parse(Source("a", text))
    assert [e.rule for e in errors] == ["bad-grace"]
    assert message in errors[0].message


def test_the_sung_line_has_none() -> None:
    text = "instrument: horn\ngesture a\n  technique: multiphonic\n  contour: F3\n  sing: G4 grace, C5\n"
    _, errors = parse(Source("a", text))
    assert [e.rule for e in errors] == ["bad-grace"]


def test_what_people_call_it_leads_to_the_word() -> None:
    _, errors = parse(Source("a", "instrument: horn\ngesture a\n  contour: G4 acciaccatura, C5\n"))
    assert errors[0].nearest == ("grace",)


def test_the_canonical_form() -> None:
    text = "instrument: horn\n\ngesture a\n  contour: G4   grace ,A4 grace — C5\n"
    assert format_text(Source("a", text)).endswith("  contour: G4 grace, A4 grace -- C5\n")
