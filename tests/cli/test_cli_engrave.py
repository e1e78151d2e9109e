"""`engrave`: what is made, what is not, and the messages. Most of these tests share one run."""

from __future__ import annotations

import json
import os
import re
import sys
from pathlib import Path

import pypdf
import pytest
import timing
from cli.conftest import DEMO, GOOD, HEAD, HIGH
from sampling import sample, whole

from gesturesmith.lilypond import Job, LilyPondPool, find
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

FORMATS = ("ily", "ly", "pdf", "png", "svg")
# A refused gesture, a passage that plays it, and two that can be played.
MIXED = f"""{HEAD}title: "Mixed"
composer: "Nobody"

gesture call "A call"
  contour: G4, C5

gesture beyond "Beyond"
  contour: G6

passage with-beyond
  play: call, beyond

passage alone
  play: call, rest 2
"""


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def engraved(folder: Path, name: str, text: str, *more: str, **environment: str) -> tuple[int, str, str]:
    """The command as a program in its own folder; status, output, errors."""
    (folder / name).write_text(text, "utf-8")
    done = timing.run(
        [sys.executable, "-m", "gesturesmith.cli.main", "engrave", "--as", ",".join(FORMATS), *more, name],
        cwd=folder,
        env={**os.environ, **environment},
        text=True,
    )
    return done.returncode, done.stdout, done.stderr


@pytest.fixture(scope="module")
def mixed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("mixed")
    return folder, engraved(folder, "mixed.gesture", MIXED)


def test_what_is_refused_is_left_out_and_the_rest_is_made(mixed):
    folder, (status, _, err) = mixed
    assert status == 1
    names = ["alone", "call"]
    made = [f"mixed/{n}.{f}" for n in names for f in FORMATS]
    assert set(everything(folder / "out")) == {"mixed.pdf", "mixed.ly", "mixed/gesturesmith.ily", *made}
    assert err == ""


def test_what_is_said(mixed):
    _, (_, out, _) = mixed
    assert 'not as written: "Beyond"' in out
    assert "not as written: with-beyond" in out
    assert re.search(r"2 gestures: 1 playable, 1 not as written", out)
    assert "out/mixed.pdf\n" in out
    assert "3 ily, 2 ly, 2 pdf, 2 png, 2 svg" in out


def test_the_page_has_title_music_and_what_is_missing(mixed):
    folder, _ = mixed
    reader = pypdf.PdfReader(folder / "out" / "mixed.pdf")
    text = "\n".join(page.extract_text() for page in reader.pages)
    assert "Mixed" in text
    assert "A call" in text
    assert "Beyond" in text  # named as left out
    assert reader.metadata.title == "Mixed"
    assert reader.metadata.author == "Nobody"


def test_same_input_same_bytes(mixed, tmp_path_factory):
    """Another folder, locale, time zone, seed and home."""
    folder = tmp_path_factory.mktemp("again")
    engraved(folder, "mixed.gesture", MIXED, PYTHONHASHSEED="7", TZ="Asia/Tokyo", LC_ALL="C", HOME=str(folder))
    assert everything(folder / "out") == everything(mixed[0] / "out")


def test_delivered_text_stands_alone(mixed):
    """The `.ly` alone, and the `.ily` in somebody else's score, in one LilyPond without our folders."""
    folder, _ = mixed
    call = (folder / "out" / "mixed" / "call.ily").read_text()
    assert '"gesture-call" = \\absolute {' in call
    score = folder / "out" / "mixed" / "score.ly"
    score.write_text(
        '\\version "2.24.0"\n\\language "deutsch"\n\\include "call.ily"\n\\include "alone.ily"\n'
        '\\book { \\bookOutputName "score" \\score { { h\'4 \\"gesture-call" \\"gesture-alone" h\' } } }\n'
    )
    names = {"mixed.ly": "out", "score.ly": "out/mixed"}
    for name, place in names.items():
        done = timing.run(
            [find().path, "--loglevel=WARNING", "-dbackend=cairo", "--pdf", "-o", folder, folder / place / name],
            text=True,
        )
        assert (done.returncode, done.stderr) == (0, "")
        assert (folder / name).with_suffix(".pdf").is_file()


def test_a_draft_has_everything_and_says_so(tmp_path):
    status, _, err = engraved(tmp_path, "mixed.gesture", MIXED, "--draft")
    assert (status, err) == (1, "")
    made = everything(tmp_path / "out")
    assert {"mixed/beyond.pdf", "mixed/with-beyond.svg"} <= set(made)
    text = "\n".join(p.extract_text() for p in pypdf.PdfReader(tmp_path / "out" / "mixed.pdf").pages)
    assert "DRAFT" in text
    assert "not as written" in text


def test_one_alone(tmp_path):
    """Nothing else is made or judged: another gesture's refusal does not count."""
    status, _, err = engraved(tmp_path, "mixed.gesture", MIXED, "--only", "CALL")
    assert (status, err) == (0, "")
    assert set(everything(tmp_path / "out")) == {f"mixed/call.{f}" for f in FORMATS} | {"mixed/gesturesmith.ily"}


def test_nothing_that_can_be_played(here, run):
    (here / "a.gesture").write_text(f"{HEAD}\ngesture beyond\n  contour: G6\n")
    result = run("engrave", "a.gesture")
    assert result.status == 1
    assert "not as written" in result.out
    assert not (here / "out").exists()


PARTLY = f"""{HEAD}
gesture call
  contour: G4, C5
gesture wrong "The wrong one"
  conture: G4
gesture twice
  contour: C5
gesture twice
  contour: C4
passage good
  play: call, rest 2
passage inner
  play: wrong
passage outer
  play: call, inner
"""


def test_what_could_be_read_is_engraved_and_what_could_not_is_named(here, run):
    (here / "a.gesture").write_text(PARTLY)
    result = run("engrave", "--as", "ily,ly", "--manifest", "m.json", "a.gesture")
    assert result.status == 2
    assert "conture" in result.out
    assert "repeated-name" in result.out
    assert result.err == "a.gesture has errors; left out: wrong, twice, inner, outer\n"
    snippets = sorted(p.stem for p in (here / "out" / "a").glob("*.ily") if p.stem != "gesturesmith")
    assert snippets == ["call", "good"]
    page = (here / "out" / "a.ly").read_text("utf-8")
    for title in ("The wrong one", "twice", "inner", "outer"):
        assert f"“{title}” is missing here" in page
    (source,) = json.loads((here / "m.json").read_text("utf-8"))["sources"]
    assert source["unread"] == ["wrong", "twice", "inner", "outer"]
    assert json.loads(run("check", "--json", "a.gesture").out)["files"][0]["unread"] == source["unread"]


def test_the_notes_page_says_what_is_missing(here, run):
    (here / "a.gesture").write_text(f"wording: it\n{PARTLY}")
    result = run("engrave", "--as", "ly", "--notes", "a.gesture")
    assert result.status == 2
    notes = (here / "out" / "a-notes.ly").read_text("utf-8")
    assert "«The wrong one» manca qui" in notes


@pytest.mark.parametrize("line", ["tempo: fast", "instrument: hron", "nonsense"])
def test_a_mistake_in_the_settings_stops_the_file(here, run, line):
    settings = HEAD if not line.startswith("instr") else HEAD.replace("instrument: horn\n", "")
    (here / "a.gesture").write_text(f"{line}\n{settings}\ngesture call\n  contour: G4\n")
    result = run("engrave", "--as", "ily", "a.gesture")
    assert result.status == 2
    assert result.err == "a.gesture has errors; nothing was engraved\n"
    assert not (here / "out").exists()


def test_nothing_that_could_be_read_makes_no_page(here, run):
    (here / "a.gesture").write_text(f"{HEAD}\ngesture wrong\n  conture: G4\n")
    result = run("engrave", "--as", "ily", "a.gesture")
    assert (result.status, result.err) == (2, "a.gesture has errors; nothing was engraved\n")
    assert not (here / "out").exists()


def test_one_bad_file_does_not_stop_the_others(here, run):
    (here / "good.gesture").write_text(GOOD)
    result = run("engrave", "--as", "ily", "gone.gesture", "good.gesture")
    assert result.status == 2
    assert (here / "out" / "good" / "call.ily").is_file()


def test_sounding_pitches(here, run):
    (here / "a.gesture").write_text(GOOD)
    for pitches, note in (("written", "g'4"), ("sounding", "c'4")):
        run("engrave", "--as", "ily", "--pitches", pitches, "-o", pitches, "a.gesture")
        assert note in (here / pitches / "a" / "call.ily").read_text()


def test_without_lilypond_what_needs_none_is_made(here, run):
    (here / "a.gesture").write_text(HIGH)
    result = run("engrave", "--as", "pdf,ily", "--lilypond", "nowhere", "a.gesture")
    assert result.status == 3
    assert "nowhere, named by --lilypond, does not exist" in result.err
    assert "pip install lilypond" in result.err
    assert [str(p) for p in everything(here / "out")] == ["a/call.ily", "a/gesturesmith.ily"]
    assert run("engrave", "--as", "ily", "--lilypond", "nowhere", "a.gesture").status == 1


@pytest.mark.parametrize(("end", "said"), [("exit 1", "made no picture"), ("kill -9 $$", "was killed")])
def test_a_lilypond_that_fails(here, run, end, said):
    (here / "a.gesture").write_text(GOOD)
    broken = here / "lilypond"
    broken.write_text(
        f'#!/bin/sh\nif [ "$1" = --version ]; then echo "GNU LilyPond 2.24.0"; exit; fi\ncat > /dev/null\n{end}\n'
    )
    broken.chmod(0o755)
    result = run("engrave", "--lilypond", broken, "a.gesture")
    assert result.status == 3
    assert 'a.gesture: "call" could not be engraved, nothing was written' in result.err
    assert said in result.err
    assert not (here / "out").exists()


@pytest.fixture
def sabotaged(monkeypatch):
    """Music that kills LilyPond during engraving, in the gestures on D5."""
    from gesturesmith.backends.lilypond import voices

    pieces = voices.pieces
    broken = r"\once \override NoteHead.stencil = #(lambda (g) (car '())) d''"
    monkeypatch.setattr(
        voices, "pieces", lambda music: tuple(piece.replace("d''", broken) for piece in pieces(music))
    )


@whole
@pytest.mark.usefixtures("sabotaged")
@pytest.mark.parametrize("count", sample([1, 6], 2))
def test_a_failure_names_the_gesture_and_the_others_are_made(here, run, count):
    """With a few pictures in one run with the page, and with many in separate runs."""
    names = [f"good{'abcdefgh'[n]}" for n in range(count)]
    blocks = "".join(f"gesture {n}\n  contour: C5\n" for n in names)
    (here / "a.gesture").write_text(f"{HEAD}{blocks}gesture bad\n  contour: D5\n")
    result = run("engrave", "a.gesture")
    assert result.status == 3
    assert 'a.gesture: "bad" could not be engraved: LilyPond failed (' in result.err
    assert "In procedure car" in result.err
    assert set(everything(here / "out")) == {f"a/{n}.pdf" for n in names}


def test_the_demo_gives_lilypond_nothing_to_warn_of():
    options = Options(formats=("pdf",), stem="demo")
    outcome = compile_text(Source("demo", DEMO.read_text("utf-8")), options)
    from gesturesmith import sheets

    document = sheets.document(tuple(i.book for i in outcome.items))
    with LilyPondPool(find()) as pool:
        run = pool.one(("pdf",), Job(document=document))
    assert run.ended == ""
    assert run.messages == ()


@whole
@pytest.mark.parametrize("home", ["/proc/nonexistent", "HERE"])
def test_the_home_folder_is_left_alone(here, program, home):
    """Nothing appears there, and an unwritable one causes no trouble."""
    (here / "a.gesture").write_text(GOOD)
    (here / "home").mkdir()
    done = program("engrave", "--as", "ily", "a.gesture", env={"HOME": home.replace("HERE", str(here / "home"))})
    assert (done.returncode, done.stderr) == (0, b"")
    assert list((here / "home").iterdir()) == []
