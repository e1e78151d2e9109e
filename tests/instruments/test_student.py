"""A student's profile, in written pitches: what it says is what check and sheets keep to."""

from __future__ import annotations

import pytest

from gesturesmith import techniques
from gesturesmith.checker import check_text
from gesturesmith.evidence import Kind
from gesturesmith.exercises.graded import graded
from gesturesmith.exercises.preparation import warm_up
from gesturesmith.instruments import profile
from gesturesmith.instruments._build import cents
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline.graded import GradedOptions, compile_graded
from gesturesmith.source import Source

HEAD = 'instrument_profile = 1\nplayer = "Mia"\nbased_on = "{}"\n\n[student]\n'


@pytest.fixture
def student(tmp_path):
    def made(instrument: str, *lines: str):
        path = tmp_path / "mia.toml"
        path.write_text(HEAD.format(instrument) + "\n".join(lines) + "\n", "utf-8")
        return profile.load(path)

    return made


def said_of(tmp_path, *lines: str):
    text = 'instrument: "mia.toml"\npitches: written\ntempo: 72\n' + "\n".join(lines) + "\n"
    report = check_text(Source("a", text), folder=tmp_path, suggestions=False).report
    return report, [(f.rule, f.evidence and f.evidence.kind) for g in report.gestures for f in g.findings]


def test_a_range_in_written_notes(student, tmp_path) -> None:
    """A horn in F sounds a fifth lower than written."""
    horn, errors = student("horn", 'lowest = "C4"', 'highest = "A4"')
    assert errors == ()
    assert horn.usual_range.value == horn.widest_range.value == (cents("F3"), cents("D4"))
    _, found = said_of(tmp_path, "gesture one", "  contour: C5")
    assert found
    assert found[0][1] is Kind.PLAYER


def test_the_arm_reaches_no_further(student, tmp_path) -> None:
    """Low C3 of the trombone is in the sixth position (OEIS A309909, citing Kennan)."""
    short, errors = student("trombone", "position = 5")
    assert errors == ()
    assert {tube.valves for tube in short.tubes} == {"1", "2", "3", "4", "5"}
    _, found = said_of(tmp_path, "gesture one", "  contour: C3")
    assert [rule for rule, _ in found] == ["pitch-no-tube-gives"]
    assert said_of(tmp_path, "gesture one", "  contour: F3")[1] == []


def test_no_trigger_and_no_fourth_valve(student) -> None:
    plain, _ = student("trombone-f", "trigger = false")
    assert {tube.side for tube in plain.tubes} == {plain.sides[0].name}
    three, _ = student("euphonium", "valves = 3")
    assert all("4" not in tube.valves for tube in three.tubes)
    assert all("4" not in tube for tube in three.chart.values())


@pytest.mark.parametrize("asked", [3, 4, 5])
def test_a_limit_below_what_a_line_asks_for_removes_the_line(student, tmp_path, asked) -> None:
    """Eight attacks in two beats at 72 are 4.8 a second."""
    student("trombone", f"attacks = {asked}")
    block = ["gesture fast", "  contour: D3", "  lasts: 2 beats", "  attacks: 8"]
    report, _ = said_of(tmp_path, *block, "exercises week", "  from: fast", "  start: D3, F3")
    (exercise,) = report.exercises
    assert len(exercise.left_out) == (2 if asked < 4.8 else 0)


def test_sheets_keep_to_keys_tempi_and_range(student) -> None:
    mia, errors = student("trombone", 'lowest = "Bb2"', 'highest = "F3"', 'keys = ["Eb major"]', "tempo = [60, 66]")
    assert errors == ()
    found = graded(techniques.get("vibrato"), mia)
    assert found[1]
    for lines in found.values():
        for one in lines:
            assert one.asked.key.fifths == -3
            assert 60 <= one.asked.tempo <= 66
            heights = [p.pitch.written.pitch_cents for p in one.case.gesture.points]
            assert cents("Bb2") <= min(heights) <= max(heights) <= cents("F3")


def test_braces_halve_the_endurance(student) -> None:
    with_braces, _ = student("trumpet", "braces = true")
    without, _ = student("trumpet", "minutes = 60")
    one, other = (i.limits["effort_reserve_s"].narrow for i in (with_braces, without))
    assert one.value == other.value / 2
    assert one.kind is Kind.PLAYER
    assert "ours" in one.source


@pytest.mark.parametrize("braces", [True, False])
def test_every_sheet_says_how_to_practise_with_braces(student, braces) -> None:
    mia, _ = student("trumpet", f"braces = {str(braces).lower()}")
    settings = Settings(instrument=mia, pitches="written")
    options = GradedOptions(technique="flutter-tongue", settings=settings, levels=(2,))
    (item,) = compile_graded((), options).items
    assert ("light pressure" in str(item.book)) is braces


def passage_findings(tmp_path, *lines: str):
    text = 'instrument: "mia.toml"\npitches: written\n' + "\n".join(lines) + "\n"
    report = check_text(Source("a", text), folder=tmp_path, suggestions=False).report
    assert not report.errors
    return [(f.rule, f.severity.value) for said in (*report.gestures, *report.passages) for f in said.findings]


@pytest.mark.parametrize(("instrument", "written"), [("trombone", "Eb major"), ("trumpet", "F major")])
def test_a_key_not_learnt_is_told(student, tmp_path, instrument, written) -> None:
    """A trumpet in Bb is written a tone higher, with two sharps more or two flats fewer."""
    student(instrument, f'keys = ["{written}"]')
    lines = ("pitches: sounding", "passage one", "  key: {}", "  play: Eb4 for 2, G4 for 2")
    heard = lambda key: passage_findings(tmp_path, *(line.format(key) for line in lines[1:]))  # noqa: E731
    told = [("key-beyond-student", "advice")]
    assert [f for f in heard(written) if "student" in f[0]] == []
    assert [f for f in heard("A major") if "student" in f[0]] == told
    assert [f for f in heard("none") if "student" in f[0]] == []


def test_a_key_changed_to_is_told_and_the_relative_minor_is_known(student, tmp_path) -> None:
    student("trombone", 'keys = ["Eb major"]')
    start = ("passage one", "  key: C minor")
    assert passage_findings(tmp_path, *start, "  play: Eb3 for 4") == []
    found = passage_findings(tmp_path, *start, "  meter: 4/4", "  play: Eb3 for 4, key D major, D3 for 4")
    assert found == [("key-beyond-student", "advice")]


@pytest.mark.parametrize(
    ("tempo", "severity"), [(59, "advice"), (60, None), (72, None), (80, None), (81, "caution")]
)
def test_a_tempo_beyond_the_students_is_told_once(student, tmp_path, tempo, severity) -> None:
    """Of a gesture, and once of a passage, however many notes it has."""
    student("trombone", "tempo = [60, 80]")
    told = [("tempo-beyond-student", severity)] if severity else []
    head = f"tempo: {tempo}"
    assert passage_findings(tmp_path, head, "gesture one", "  contour: Bb2, D3", "  lasts: 2 beats") == told
    assert (
        passage_findings(tmp_path, "passage one", f"  {head}", "  play: Bb2 for 1, D3 for 1, F3 for 1, D3 for 1")
        == told
    )
    assert passage_findings(tmp_path, head, "gesture one", "  contour: Bb2", "  lasts: 2 s") == []


def test_a_gesture_played_faster_by_a_passage_is_told_with_the_passage(student, tmp_path) -> None:
    student("trombone", "tempo = [60, 80]")
    block = ("gesture one", "  contour: Bb2, D3", "  lasts: 2 beats")
    found = passage_findings(
        tmp_path, "tempo: 72", *block, "passage two", "  tempo: 96", "  play: one, one, F3 for 1"
    )
    assert found == [("tempo-beyond-student", "caution")]


def test_warm_ups_keep_to_the_tempi(student) -> None:
    quick, _ = student("trombone", "tempo = [72, 80]")
    slurs = warm_up(quick)
    assert slurs is not None
    tempi = {case.gesture.tempo for case in slurs.cases if case is not None}
    assert tempi == {72}


@pytest.mark.parametrize(
    ("line", "key", "words"),
    [
        ('lowest = "C1"', "student.lowest", "no such note"),
        ('highest = "A2"', "student.highest", "must be above lowest"),
        ("position = 9", "student.position", "out of range"),
        ("valves = 3", "student.valves", "has no valves"),
        ('keys = ["H major"]', "student.keys", "no such key"),
        ('keys = "C"', "student.keys", "list of keys"),
        ("tempo = [90, 60]", "student.tempo", "out of order"),
        ("braces = 1", "student.braces", "true or false"),
        ("reach = 3", "student.reach", "unknown key"),
    ],
)
def test_what_is_wrong_is_told_with_its_key(student, line, key, words) -> None:
    start = 'lowest = "Bb2"\n' if "highest" in line else ""
    _, errors = student("trombone", f"{start}{line}")
    assert [(e.key, words in e.problem) for e in errors] == [(key, True)]


def test_only_a_player_is_a_student(tmp_path) -> None:
    path = tmp_path / "a.toml"
    path.write_text('instrument_profile = 1\nbased_on = "horn"\n[student]\nposition = 5\n', "utf-8")
    found, errors = profile.load(path)
    assert found is None
    assert "only the profile of a player" in errors[0].problem
