"""Suggestions for a passage that takes a gesture or pitch out of the instrument's range."""

import pytest
from rules.checking import checked

from gesturesmith.diagnostics import Severity, Verdict
from gesturesmith.diagnostics.edits import apply_edits

HEAD = "instrument: horn\npitches: {}\n\ngesture call\n  contour: G5, C6\n\npassage all\n  play: {}\n"


def offered(play, pitches="written"):
    text = HEAD.format(pitches, play)
    made = checked(text, suggestions=True)
    (said,) = made.report.passages
    assert said.verdict is Verdict.NOT_AS_WRITTEN
    found = [f.suggestions for f in said.findings if f.severity is Severity.REFUSED]
    assert len({*found}) == 1
    for suggestion in found[0]:
        (after,) = checked("\n".join(apply_edits(text.split("\n"), suggestion.edits))).report.passages
        assert after.verdict is suggestion.verdict is not Verdict.NOT_AS_WRITTEN
        assert suggestion.changes_music
    return [s.edits[-1].new for s in found[0]]


@pytest.mark.parametrize(
    ("play", "expected"),
    [
        ("call up 7", ["call", "call down 5", "call down 17"]),
        (
            "rest 1, call up P5, call",
            ["rest 1, call, call", "rest 1, call down 5, call", "rest 1, call down 17, call"],
        ),
        ("call up 40", ["call"]),
        ("C9 for 1/2 ff", ["C6 for 1/2 ff", "C5 for 1/2 ff", "C4 for 1/2 ff"]),
        (
            "xC1 for 2 as air accent",
            [f"x{note} for 2 as air accent" for note in ("C3", "C2", "C4")],
        ),
    ],
)
def test_where_it_goes_instead(play, expected):
    assert [row.split("play: ")[1] for row in offered(play)] == expected


def test_over_several_lines_and_in_sounding_pitches():
    assert offered("call,\n    call up 12  # as high as that", "written")[0].strip() == "call  # as high as that"
    assert offered("call down 4, C9 for 1", "sounding")[0] == "play: call down 4, C5 for 1"


def test_a_passage_of_what_is_refused_itself_gets_none():
    text = HEAD.format("written", "call").replace("G5, C6", "G7")
    (said,) = checked(text, suggestions=True).report.passages
    assert [f.suggestions for f in said.findings] == [()]


@pytest.mark.parametrize(("calls", "helped"), [(500, True), (501, False)])
def test_a_passage_of_more_than_a_thousand_notes_is_not_played_through_again(calls, helped):
    """Each edit tried would cost as much as the whole passage. A call has two notes."""
    play = ", ".join(["call"] * (calls - 1) + ["call up 36"])
    (said,) = checked(HEAD.format("written", play), suggestions=True).report.passages
    assert said.verdict is Verdict.NOT_AS_WRITTEN
    assert any(f.suggestions for f in said.findings) is helped
