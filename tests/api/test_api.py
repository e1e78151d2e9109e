"""The functions of the library: the same answers as the commands, mistakes as values, misuse as exceptions."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from api.texts import CALL, HEAD, HIGH
from hypothesis import given, settings
from hypothesis import strategies as st
from sampling import count, whole

import gesturesmith
from gesturesmith import Severity, Source, Verdict
from gesturesmith.cli.main import main
from gesturesmith.lytext import code
from gesturesmith.sheets import snippet

DEMO = Path(__file__).parents[2] / "docs" / "demo"
PLAYER = 'instrument_profile = 1\nbased_on = "horn"\nplayer = "A player"\n'


@pytest.mark.parametrize("name", ["fog-signals.gesture", "not-as-written.gesture"])
def test_the_library_says_what_the_command_says(name, capsys, monkeypatch):
    monkeypatch.chdir(DEMO)
    main(["check", "--json", name])
    assert gesturesmith.to_json(gesturesmith.suggest(Path(name))) == capsys.readouterr().out
    main(["check", name])
    assert gesturesmith.to_text(gesturesmith.suggest(Path(name))) == capsys.readouterr().out


def test_check_is_suggest_without_suggestions():
    text = (DEMO / "not-as-written.gesture").read_text("utf-8")
    plain, tried = gesturesmith.check(text), gesturesmith.suggest(text)
    assert [f.rule for g in plain.gestures for f in g.findings] == [
        f.rule for g in tried.gestures for f in g.findings
    ]
    assert not any(f.suggestions for g in plain.gestures for f in g.findings)
    assert any(f.suggestions for g in tried.gestures for f in g.findings)


def test_suggestions_for_one_gesture_alone():
    text = HIGH + "\ngesture far\n  contour: A6\n"
    report = gesturesmith.suggest(text, only="FAR")
    assert [bool(g.findings[0].suggestions) for g in report.gestures] == [False, True]


def test_text_path_and_source_are_read_alike(tmp_path):
    path = tmp_path / "call.gesture"
    path.write_text(CALL)
    assert gesturesmith.check(path).gestures == gesturesmith.check(CALL).gestures
    named = gesturesmith.check(Source("call.gesture", CALL))
    assert (named.source.name, named.gestures) == ("call.gesture", gesturesmith.check(CALL).gestures)
    assert gesturesmith.check(CALL).source.name == "text"


def test_a_text_is_never_taken_for_a_path(tmp_path, monkeypatch):
    (tmp_path / "call.gesture").write_text(CALL)
    monkeypatch.chdir(tmp_path)
    report = gesturesmith.check("call.gesture")
    assert not report.readable
    assert report.gestures == ()


def test_profiles_are_found_beside_a_file_or_where_they_are_said_to_be(tmp_path, monkeypatch):
    (tmp_path / "mine.toml").write_text(PLAYER)
    text = CALL.replace("instrument: horn", 'instrument: "mine.toml"')
    path = tmp_path / "call.gesture"
    path.write_text(text)
    assert gesturesmith.check(path).readable
    assert gesturesmith.check(text, profiles=tmp_path).readable
    assert gesturesmith.read(text, profiles=str(tmp_path)).piece is not None
    assert gesturesmith.check(text).errors != ()
    monkeypatch.chdir(tmp_path)
    assert gesturesmith.check(text).readable


@pytest.mark.parametrize(
    "wrong",
    [
        "",
        "nonsense",
        HEAD,
        "\0",
        "\ud800",
        "%PDF-1.7",
        "instrument: kazoo\n",
        f"{CALL}gesture call\n",
        "x" * 2_000_001,
    ],
)
def test_a_mistake_in_a_text_is_no_exception(wrong):
    assert gesturesmith.read(wrong).source.name == "text"
    assert gesturesmith.engrave(wrong).report.errors == gesturesmith.check(wrong).errors
    assert gesturesmith.render(wrong, "ly").report.errors == gesturesmith.suggest(wrong).errors
    assert gesturesmith.to_text(gesturesmith.check(wrong))
    assert gesturesmith.check(wrong)._repr_html_().startswith("<table>")


@settings(max_examples=count(25, 100))
@given(st.text(max_size=60), st.integers(0, len(CALL)))
def test_whatever_is_put_into_a_text_is_no_exception(more, at):
    text = CALL[:at] + more + CALL[at:]
    report = gesturesmith.check(text)
    reading = gesturesmith.read(text)
    assert (reading.errors == ()) == report.readable
    assert "<script" not in report._repr_html_()


def test_what_can_be_read_is_given_with_the_errors_of_the_rest():
    text = CALL + "gesture wrong\n  conture: C5\n"
    assert [g.name for g in gesturesmith.read(text).piece.gestures] == ["call"]
    assert [s.name for s in gesturesmith.engrave(text).snippets if s.music is not None] == ["call"]
    made = gesturesmith.render(text, "ily")
    assert not made.report.readable
    assert "text/call.ily" in [str(f.place) for f in made.files]


@pytest.mark.parametrize(
    ("function", "options", "error"),
    [
        ("read", {}, TypeError),
        ("check", {}, TypeError),
        ("check", {"text": CALL, "profiles": "no such folder"}, NotADirectoryError),
        ("check", {"text": Path("gone.gesture")}, FileNotFoundError),
        ("check", {"text": Path("/")}, IsADirectoryError),
        ("suggest", {"text": CALL, "only": "gone"}, ValueError),
        ("engrave", {"text": CALL, "only": "gone"}, ValueError),
        ("engrave", {"text": CALL, "pitches": "concert"}, ValueError),
        ("render", {"text": CALL, "formats": "docx"}, ValueError),
        ("render", {"text": CALL, "formats": ()}, ValueError),
        ("render", {"text": CALL, "formats": "ly", "only": "gone"}, ValueError),
        ("render", {"text": CALL, "lilypond": "no such program"}, gesturesmith.LilyPondNotFound),
        ("schema", {"name": "gone"}, ValueError),
    ],
)
def test_misuse_is_an_exception(function, options, error):
    options = options or {"text": 3}
    with pytest.raises(error):
        getattr(gesturesmith, function)(**options)


def test_nothing_of_a_file_is_read_as_bytes(tmp_path):
    path = tmp_path / "latin.gesture"
    path.write_bytes(CALL.encode() + b"# caf\xe9\n")
    report = gesturesmith.check(path)
    assert [e.rule for e in report.errors] == ["not-utf-8"]


def test_what_is_not_as_written_has_no_music_unless_a_draft_is_wanted():
    (beyond,) = gesturesmith.engrave(HIGH).snippets
    assert (beyond.report.verdict, beyond.music) == (Verdict.NOT_AS_WRITTEN, None)
    assert repr(beyond) == "<gesture beyond: not as written>"
    (drawn,) = gesturesmith.engrave(HIGH, draft=True).snippets
    assert drawn.music.draft
    assert gesturesmith.render(HIGH, "ily").files == ()
    assert gesturesmith.render(HIGH, "ily", draft=True).files != ()


def test_a_case_is_the_gesture_with_the_way_it_is_played():
    (call,) = gesturesmith.engrave(CALL).snippets
    assert call.case.realisation.points[0].partial == call.report.realisation.points[0].partial
    assert call.case.gesture in gesturesmith.read(CALL).piece.gestures


def test_passages_come_after_gestures():
    text = CALL + "passage twice\n  play: call, call\n"
    assert [repr(s) for s in gesturesmith.engrave(text).snippets] == [
        "<gesture call: playable>",
        "<passage twice: playable>",
    ]
    (twice,) = gesturesmith.engrave(text, only="twice").snippets
    assert twice.music.kind == "passage"


@pytest.mark.lilypond
def test_one_svg_in_three_lines(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    made = gesturesmith.render(CALL, "svg")
    Path("call.svg").write_bytes(made.files[0].data)
    assert Path("call.svg").read_text("utf-8").rstrip().endswith("</svg>")


@whole
@pytest.mark.lilypond
def test_the_files_are_those_of_the_command(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    Path("call.gesture").write_text(CALL)
    main(["engrave", "--no-cache", "--as", "svg,pdf,ily", "call.gesture"])
    made = gesturesmith.render(Path("call.gesture"), ["svg", "pdf", "ily"])
    assert {str(f.place): f.data for f in made.files} == {
        p.relative_to("out").as_posix(): p.read_bytes() for p in Path("out").rglob("*") if p.is_file()
    }


@whole
@pytest.mark.lilypond
def test_what_lilypond_cannot_set_is_a_failure_beside_the_rest(monkeypatch):
    text = CALL + "gesture other\n  contour: C5\n"
    real = snippet.book

    def book(music, *arguments, **options):
        made = real(music, *arguments, **options)
        return made if music.music.name == "call" else code(f"{made}\n\\nonsense\n")

    monkeypatch.setattr(snippet, "book", book)
    made = gesturesmith.render(text, "svg")
    assert [str(f.place) for f in made.files] == ["text/call.svg"]
    assert [f.gesture for f in made.failures] == ["other"]


def test_a_fault_of_ours_is_no_value(monkeypatch):
    from gesturesmith.pipeline import text

    def faulty(*arguments):
        raise KeyError("a fault of ours")

    monkeypatch.setattr(text, "engraved", faulty)
    with pytest.raises(KeyError, match="a fault of ours"):
        gesturesmith.render(CALL, "ly")


def test_nothing_is_left_behind(tmp_path, monkeypatch):
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    gesturesmith.render(CALL, ["ily", "ly"])
    assert os.listdir(tmp_path) == []


def test_severities_are_the_words_of_the_rules():
    assert {s.value for s in Severity} == {"advice", "caution", "refused"}
