"""A file for several instruments is judged part by part, and what is found names the part."""

from __future__ import annotations

import pytest

import gesturesmith
from gesturesmith.checker import check_text
from gesturesmith.diagnostics import PartName, Verdict, render_text
from gesturesmith.diagnostics.types import Report
from gesturesmith.model.changes import RehearsalMark, TempoChange, TempoGradually
from gesturesmith.source import Source

HEAD = 'pitches: written\ntempo: 60\npart horn "Horn 1"\n  instrument: horn\npart tuba "Tuba"\n  instrument: tuba\n'
SHARED = HEAD + "gesture call\n  contour: C6\n  lasts: 4 beats\npassage p\n  horn: call\n  tuba: call, rest 4\n"


def report_of(text):
    return check_text(Source("parts", text)).report


def test_a_gesture_is_judged_for_each_part_that_plays_it():
    said = {g.part: g.verdict for g in report_of(SHARED).gestures}
    assert said == {
        PartName("horn", "Horn 1"): Verdict.PLAYABLE,
        PartName("tuba", "Tuba"): Verdict.NOT_AS_WRITTEN,
    }


def test_the_finding_names_the_part():
    text = render_text(Report(files=(report_of(SHARED),)), colour=False)
    assert "not as written: call, Tuba, first note (written C6): outside-range" in text
    assert "Horn 1, first note" not in text
    assert "parts: 2 parts\n  Horn 1: 1 gesture: 1 playable; 1 passage: 1 playable\n" in text


def test_each_part_is_read_in_its_own_pitches():
    """Written C5 of a horn in F is F4, and a trombone has no other C5."""
    text = "part a\n  instrument: horn\n  pitches: written\npart b\n  instrument: trombone\npassage p\n"
    made = gesturesmith.read(text + "  a: C5 for 1\n  b: C5 for 1\n")
    heard = [p.reading.piece.passages[0].items[0].gesture.points[0].sounding_cents for p in made.parts]
    assert heard == [6500, 7200]


def test_what_a_part_does_not_say_holds_as_in_the_settings():
    text = "instrument: horn\npitches: sounding\nwording: de\nfingerings: all\npart a\npart b\n  wording: fr\n"
    made = gesturesmith.read(
        text + "  fingerings: none\n  pitches: written\npassage p\n  a: C4 for 1\n  b: C4 for 1\n"
    )
    settings = [part.reading.piece.settings for part in made.parts]
    assert [(s.instrument.key, s.pitches, s.wording, s.fingerings, s.part) for s in settings] == [
        ("horn", "sounding", ("de",), "all", "a"),
        ("horn", "written", ("fr",), "none", "b"),
    ]
    assert (made.shared.wording, made.shared.fingerings, made.shared.part) == (("de",), "all", None)


def lengths(text):
    """Of each part: when each item of its first passage begins, and whether it sounds."""
    return [
        [(int(i.at), int(i.beats), i.gesture is not None) for i in part.reading.piece.passages[0].items]
        for part in gesturesmith.read(text).parts
    ]


def test_a_part_without_a_line_rests():
    made = gesturesmith.read(SHARED + "passage q\n  meter: 4/4\n  horn: C4 for 8\n")
    assert made.errors == ()
    tuba = made.parts[1].reading.piece.passages[1]
    assert (tuba.name, tuba.meter, [(i.beats, i.gesture) for i in tuba.items]) == ("q", (4, 4), [(8, None)])


def test_in_free_time_a_rest_follows_a_shorter_line():
    text = HEAD + "passage p\n  horn: C4 for 3\n  tuba: C2 for 1\n"
    assert lengths(text) == [[(0, 3, True)], [(0, 1, True), (1, 2, False)]]


# Where lines have changes of tempo and gestures in seconds, the length of these depends on what another line says,
# and so does the time of whatever comes after them. At 60, three seconds are three beats, at 120 six.
@pytest.mark.parametrize(
    ("horn", "tuba", "expected"),
    [
        ("C5 for 2, tempo 120, secs, mark A, G4 for 2", "C2 for 10", [(2, TempoChange), (8, RehearsalMark)]),
        (
            "C5 for 2, secs, mark A, G4 for 2",
            "C2 for 2, tempo 120, D2 for 8",
            [(2, TempoChange), (8, RehearsalMark)],
        ),
        # One after the other: each is known once those before it are.
        (
            "secs, tempo 120, C5 for 1, secs, mark A, C5 for 2",
            "C2 for 4, tempo 100, C2 for 5",
            [(3, TempoChange), (4, TempoChange), (9, RehearsalMark)],
        ),
        # A shorter line rests once it is known how long the other one is.
        (
            "C5 for 1, tempo 120, secs, accelerando to 180 over 4, G4 for 6",
            "C2 for 2",
            [(1, TempoChange), (7, TempoGradually)],
        ),
    ],
)
def test_seconds_wait_for_the_tempo_of_another_line(horn, tuba, expected):
    secs = "gesture secs\n  technique: half-valve\n  contour: xG4 ~~ xC5\n  lasts: 3 s\n"
    made = gesturesmith.read(HEAD + f"{secs}passage p\n  horn: {horn}\n  tuba: {tuba}\n")
    assert made.errors == ()
    for part in made.parts:
        passage = part.reading.piece.passages[0]
        assert [(change.at, type(change)) for change in passage.changes] == expected
        assert passage.beats == made.parts[0].reading.piece.passages[0].beats


def test_what_never_settles_is_an_error(monkeypatch):
    monkeypatch.setattr("gesturesmith.model.parts.MAX_ROUNDS", 2)
    secs = "gesture secs\n  technique: half-valve\n  contour: xG4 ~~ xC5\n  lasts: 3 s\n"
    lines = "  horn: secs, tempo 120, C5 for 1, secs, mark A, C5 for 2\n  tuba: C2 for 4, tempo 100, C2 for 5\n"
    made = gesturesmith.read(f"{HEAD}{secs}passage p\n{lines}")
    assert [e.rule for e in made.errors] == ["too-many-changes"]


def test_one_part_may_have_no_key_signature():
    text = "pitches: written\npart horn\n  instrument: horn\n  key: none\npart trumpet\n  instrument: trumpet\n"
    line = "C5 for 4, key A minor, C5 for 4"
    report = report_of(f"{text}passage p\n  key: Eb major\n  horn: {line}\n  trumpet: C5 for 8\n")
    assert (report.errors, [p.findings for p in report.passages]) == ((), [(), ()])
    made = gesturesmith.read(f"{text}passage p\n  key: Eb major\n  horn: {line}\n  trumpet: C5 for 8\n")
    horn, trumpet = (part.reading.piece.passages[0] for part in made.parts)
    assert (horn.key, horn.changes) == (None, ())
    assert (trumpet.key.name, [c.key.name for c in trumpet.changes]) == ("Eb major", ["A minor"])


def test_the_key_of_a_part_is_only_none():
    text = HEAD.replace("instrument: horn\n", "instrument: horn\n  key: F major\n", 1)
    made = gesturesmith.read(f"{text}passage p\n  horn: C5 for 4\n  tuba: C2 for 4\n")
    assert [(e.rule, e.span.line) for e in made.errors] == [("bad-key", 5)]


def test_a_line_plays_material_and_its_own_line_of_other_passages():
    text = HEAD + (
        "gesture g\n  contour: G3\npassage motif\n  play: g, g\n"
        "passage one\n  horn: C4 for 2\n  tuba: rest 1, motif\n  repeat: 2\n"
        "passage all\n  horn: one, motif\n  tuba: one, rest 2\n"
    )
    made = gesturesmith.read(text)
    assert made.errors == ()
    assert made.parts[0].passages == ("one", "all")
    horn, tuba = (part.reading.piece for part in made.parts)
    assert [p.name for p in horn.passages] == ["motif", "one", "all"]
    # Both times the horn waits for the tuba.
    assert [str(i.beats) for i in horn.passages[2].items] == ["2", "1", "2", "1", "1", "1"]
    assert [i.played for i in tuba.passages[2].items] == ["", "g", "g", "", "g", "g", ""]


def test_a_mistake_in_what_parts_share_is_told_once():
    text = SHARED.replace("  contour: C6\n", "  contour: C6 as stoped\n")
    report = report_of(text)
    assert [(e.rule, e.gesture) for e in report.errors] == [("unknown-technique", "call")]
    assert report.unread == (("call", "call"), ("p", "p"))
    assert report.usable


@pytest.mark.parametrize("line", ["horn: C4 for 4\n  tuba: C7 for 4, C2 for 4\n", "tuba: C7 for 4\n"])
def test_what_would_work_in_a_line_is_written_into_that_line(line):
    text = HEAD + "passage p\n  horn: rest 8\n  " + line
    text = text.replace("  horn: rest 8\n", "", "horn" in line)
    found = [p for p in report_of(text).passages if p.verdict is Verdict.NOT_AS_WRITTEN]
    (edit,) = found[0].findings[0].suggestions[0].edits
    assert edit.old.strip().startswith("tuba: C7 for 4")
    assert edit.new.strip().startswith("tuba: C4 for 4")


def test_what_helps_one_part_does_not_harm_another():
    """A line that a tuba cannot play goes down by octaves, but not out of the trumpet's range."""
    text = HEAD.replace("instrument: horn", "instrument: trumpet") + SHARED.removeprefix(HEAD)
    tuba = next(g for g in report_of(text).gestures if g.part.name == "tuba")
    offered = [s.in_words for f in tuba.findings for s in f.suggestions]
    assert offered
    for words in offered:
        after = report_of(text.replace("contour: C6", words))
        assert [g.verdict for g in after.gestures if g.part.name == "horn"] == [Verdict.PLAYABLE], words
    low = report_of(text.replace("C6", "C4").replace("tuba: call, rest 4", "tuba: call down 12, rest 4"))
    assert not low.refused


def test_nothing_follows_from_a_line_that_cannot_be_read():
    text = HEAD + "gesture g\n  contour: C4\npassage p\n  hron: g\n  tuba: C2 for 1\n"
    assert [e.rule for e in report_of(text).errors] == ["unknown-part"]


def test_without_parts_nothing_is_said_of_them():
    text = "instrument: horn\npitches: written\ngesture call\n  contour: G4\n"
    assert '"part"' not in gesturesmith.to_json(gesturesmith.check(text))


TWO = "pitches: written\ntempo: 60\nmeter: 4/4\npart horns\n  instrument: horn\n  players: 2\npassage p\n"


def players_of(line):
    """For each of two players the times at which a line has something for them."""
    made = gesturesmith.read(TWO + f"  horns: {line}\n")
    assert made.errors == ()
    (part,) = made.parts
    return [[int(i.at) for i in one.piece.passages[0].items if i.gesture is not None] for one in part.players]


@pytest.mark.parametrize(
    ("line", "first", "second"),
    [
        ("C4 for 1, D4 for 1", [0, 1], [0, 1]),  # both, where nothing is said
        ("C4 for 1 first, D4 for 1, E4 for 1 a2", [0, 1, 2], [2]),
        ("C4 for 1 second, rest 1, D4 for 1, E4 for 1 first", [3], [0, 2]),
        ("C4 for 1 first, G4 / E4 for 2, D4 for 1", [0, 1, 3], [1]),
    ],
)
def test_who_of_two_players_plays(line, first, second):
    assert players_of(line) == [first, second]


def test_two_players_rest_by_turns():
    """What tires both is no effort for either where they play by turns; said of both it is said once."""
    fast = TWO.replace("60", "120")
    both, turns = ["A5 for 16 ff"] * 30, ["A5 for 16 ff first", "A5 for 16 ff second"] * 15
    found = [report_of(f"{fast}  horns: {', '.join(line)}\n").passages[0].findings for line in (both, turns)]
    assert [[(f.rule, f.where) for f in one] for one in found] == [
        [("strain-without-rest", ""), ("effort-overdrawn", "")],
        [],
    ]


def test_what_one_of_two_players_cannot_play_is_told_for_that_one():
    (said,) = report_of(TWO + "  horns: C4 for 4 first, C8 for 4 second, E4 / C1 for 4\n").passages
    refused = [(f.where, f.rule) for f in said.findings if f.severity.value == "refused"]
    assert refused == [("second player, this note", "outside-range"), ("second player, this note", "outside-range")]
    assert said.verdict is Verdict.NOT_AS_WRITTEN
