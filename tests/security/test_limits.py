"""No file hangs or floods a run: every limit has its message, and applies exactly where it should."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from sampling import sample, whole
from timing import Patience, within

from gesturesmith import sheets, textfile
from gesturesmith.batch import render
from gesturesmith.cli.main import main
from gesturesmith.fixes import tester
from gesturesmith.importers import order
from gesturesmith.importers.musicxml import container, tree
from gesturesmith.importers.musicxml import reader as scores
from gesturesmith.instruments.profile import file as profiles
from gesturesmith.lang import reader
from gesturesmith.lilypond import output_files, sandbox
from gesturesmith.lilypond import run as running
from gesturesmith.lytext import code
from gesturesmith.model import context
from gesturesmith.model.reading import read
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

HORN = "instrument: horn\npitches: written\n"
CALL = "gesture call\n  contour: C4\n"
PAGE = Path(__file__).parents[2] / "SECURITY.md"


def notes(count):
    return HORN + "".join(f"gesture g{n}\n  contour: C4\n  attacks: 1000\n" for n in range(count // 1000))


def points(count):
    return f"{HORN}gesture call\n  contour: {', '.join(['C4'] * count)}\n  lasts: {count} beats\n"


def gestures(count):
    return HORN + "".join(f"gesture g{n}\n  contour: C4\n" for n in range(count))


def events(count):
    return f"{HORN}{CALL}passage all\n  play: {', '.join(['call', 'rest 1'] * 50)}\n  repeat: {count // 100}\n"


def nested(count):
    """Each passage plays the previous one ten times; the file reaches the same limit ten times over."""
    several = "".join(f"passage p{n}\n  play: {', '.join(['call'] * 5000)}\n" for n in range(count // 5000))
    return f"{HORN}{CALL}{several}"


def variants(count):
    starts = ", ".join(["C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "E5"] * 1)
    times = ", ".join(str(n) for n in range(1, count // 10 + 1))
    return f"{HORN}{CALL}exercises week\n  from: call\n  start: {starts}\n  lasts: {times} beats\n"


def bars(count):
    rests = ", ".join(["rest 1000"] * (count // 250))
    return f"{HORN}{CALL}passage all\n  meter: 4/4\n  play: {rests}\n"


def beats(count):
    return f"{HORN}gesture call\n  contour: C4, D4\n  lasts: {count} beats\n"


def beats_of_rest(count):
    return f"{HORN}{CALL}passage all\n  play: call, rest {count}\n"


def beats_of_a_variant(count):
    return f"{HORN}{CALL}exercises week\n  from: call\n  lasts: 1, {count} beats\n"


def varied(count):
    """A hundred variants of a gesture with 500 points, then one more if that is not enough."""
    last = "exercises last\n  from: call\n  tempo: 60\n" if count > 50_000 else ""
    return f"{points(500)}exercises week\n  from: call\n  tempo: 60..159 by 1\n{last}"


def events_in_gestures(count):
    """Twenty gestures of 500 notes are 10,000."""
    return f"{points(500)}passage all\n  play: call\n  repeat: {count // 500}\n"


def attacks(count):
    return (
        f"{HORN}{CALL}  attacks: 1000\n  lasts: 1000 beats\npassage all\n  play: call\n  repeat: {count // 1000}\n"
    )


def text(count):
    return f'{HORN}{CALL}  footnote: "{"x" * count}"\n'


def size(count):
    return f"{HORN}{CALL}".ljust(count, "#")


def profile(count):
    Path("own.toml").write_text('instrument_profile = 1\nbased_on = "horn"\n'.ljust(count, "#"))
    return f'instrument: "own.toml"\npitches: written\n{CALL}'


# A limit as in SECURITY.md, where it is set, a text with that many, the maximum, a step beyond it, and words of the
# message.
TABLE = {
    "2 MB per file": ((textfile, "LARGEST_BYTES"), size, 2_000_000, 1, "larger than 2 MB"),
    "20,000 gestures": ((context, "MAX_GESTURES"), gestures, 20_000, 1, "more than 20000 gestures in one file"),
    "100,000 notes in all gestures of a file": (
        (context, "MAX_NOTES"), notes, 100_000, 1000, "more than 100000 notes in all gestures in one file",
    ),
    "500 points per gesture": ((context, "MAX_POINTS"), points, 500, 1, "501 points in one contour"),
    "10,000 events per passage": ((context, "MAX_EVENTS"), events, 10_000, 100, "more than 10000 notes"),
    "every point or attack": ((context, "MAX_EVENTS"), events_in_gestures, 10_000, 500, "more than 10000 notes"),
    "or attack": ((context, "MAX_EVENTS"), attacks, 10_000, 1000, "more than 10000 notes"),
    "and as many bars": ((context, "MAX_EVENTS"), bars, 10_000, 250, "more than 10000 notes"),
    "1,000 beats per gesture": ((context, "MAX_BEATS"), beats, 1000, 1, "this gesture lasts 1001 beats"),
    "gesture, note, rest": ((context, "MAX_BEATS"), beats_of_rest, 1000, 1, "this lasts 1001 beats"),
    "rest or variant": ((context, "MAX_BEATS"), beats_of_a_variant, 1000, 1, "a variant lasts 1001 beats"),
    "100,000 events per file": ((context, "MAX_EVENTS_IN_FILE"), nested, 100_000, 5000, "more than 100000 notes"),
    "500 variants": ((context, "MAX_VARIANTS"), variants, 500, 10, "510 variants"),
    "50,000 events in all variants": (
        (context, "MAX_VARIED_EVENTS"), varied, 50_000, 500, "more than 50000 notes and rests",
    ),
    "2,000 characters per text": ((reader, "MAX_TEXT_LENGTH"), text, 2000, 1, "a text of 2001 characters"),
    "256 kB per profile": ((profiles, "LARGEST_BYTES"), profile, 256 * 1024, 1, "256 kB"),
}  # fmt: skip


def mistakes(path):
    """The mistakes found by reading a file."""
    return read(Source(path.name, path.read_text())).errors


@pytest.mark.parametrize("limit", sample(tuple(TABLE), 4))
def test_a_limit_and_its_message(limit, tmp_path, monkeypatch, capsys):
    (module, name), make, most, step, message = TABLE[limit]
    assert getattr(module, name) == most
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "study.gesture"
    path.write_text(make(most))
    if make in (gestures, notes, nested, varied):
        # To check all that may be in one file takes its time.
        assert mistakes(path) == ()
        path.write_text(make(most + step))
        assert [message in error.message for error in mistakes(path)] == [True]
    else:
        assert main(["check", str(path)]) in (0, 1)
        capsys.readouterr()
        path.write_text(make(most + step))
        assert main(["check", str(path)]) == 2
        said = capsys.readouterr()
        assert message in re.sub(r"\s+\|?\s*", " ", said.out + said.err)


def test_the_page_lists_every_limit_and_where_it_is_raised():
    page = re.sub(r"\s+", " ", PAGE.read_text("utf-8"))
    for limit, ((module, name), *_) in TABLE.items():
        assert limit in page
        assert f"`{name}` in `{module.__name__.replace('.', '/')}.py`" in page, limit
    for module, name in (
        (render, "_BASE_S"),
        (render, "_SECONDS_PER_EXCERPT"),
        (sandbox, "MEMORY_KB"),
        (sandbox, "FILE_BLOCKS"),
        (sandbox, "FOLDER_BYTES"),
        (sandbox, "CPU_S"),
        (sandbox, "MAX_ENTRIES"),
        (sandbox, "LOG_BYTES"),
        (container, "MAX_BYTES"),
        (tree, "MAX_ELEMENTS"),
        (tree, "MAX_DEPTH"),
        (scores, "MAX_BARS"),
        (scores, "MAX_NOTES"),
        (order, "MAX_PLAYED"),
    ):
        assert hasattr(module, name)
        assert f"`{name}` in `{module.__name__.replace('.', '/')}.py`" in page, name


@whole
def test_the_longest_gesture_and_the_longest_passage_can_be_written(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    allow = '  allow: breath-too-short "none"\n'
    for number, contour in enumerate(("C4 ~~ G4", "C4, r", "r, C4", "C4, G4@1/3, C4")):
        Path(f"{number}.gesture").write_text(beats(1000).replace("C4, D4", contour) + allow)
    Path("bars.gesture").write_text(bars(1000))
    assert within(60, lambda: main(["engrave", "--draft", "--as", "ly", "."])) in (0, 1)


@whole
@pytest.mark.lilypond
def test_engraving_without_end_is_stopped_and_told_with_its_gesture(tmp_path, monkeypatch, capsys):
    """A stencil that never ends, in one of two gestures: the other one is made."""
    book = sheets.snippet.book

    def endless(music, settings, *, output):
        made = book(music, settings, output=output)
        loop = "\\markup \\stencil #(let loop () (loop))\n\\score {"
        return code(made.replace("\\score {", loop, 1)) if music.music.name == "endless" else made

    monkeypatch.setattr(sheets.snippet, "book", endless)
    monkeypatch.setattr(render, "_BASE_S", 3.0)
    monkeypatch.setattr(render, "_SECONDS_PER_EXCERPT", 0.0)
    monkeypatch.chdir(tmp_path)
    Path("study.gesture").write_text(f"{HORN}{CALL}gesture endless\n  contour: D4\n")
    patience = Patience(30)
    assert main(["engrave", "--snippets", "--no-cache", "study.gesture"]) == 3
    assert patience.left()
    said = capsys.readouterr()
    assert '"endless" could not be engraved: LilyPond took too long and was stopped' in said.err
    assert [p.name for p in Path("out/study").iterdir()] == ["call.pdf"]


def test_a_flood_is_told_as_one():
    assert output_files.FOLDER_BYTES == sandbox.FOLDER_BYTES
    assert output_files.MAX_ENTRIES == sandbox.MAX_ENTRIES
    assert running.LOG_BYTES == sandbox.LOG_BYTES


# --- how long a check takes --------------------------------------------------------------------------------
# As in SECURITY.md, in seconds of processor time, measured on a fifth of the maximum.

REFUSED = "  technique: flutter-tongue\n  contour: C4 ~~ C5\n  lasts: 10 beats\n  attacks: 1000\n"
HIGH = "gesture {}\n  contour: C4, G6\n"
MOVED = ", ".join(["a", "b up M2"] * 1250)
SLOW = {
    "passages that move what is refused": (
        HORN + HIGH.format("a") + HIGH.format("b")
        + "".join(f"passage p{n}\n  play: {MOVED}\n  repeat: 2\n" for n in range(2)), 5,
    ),
    "attacks": (HORN + "".join(f"gesture g{n}\n  contour: C4\n  attacks: 500\n" for n in range(40)), 6),
    "attacks that are refused": (HORN + "".join(f"gesture g{n}\n{REFUSED}" for n in range(8)), 8),
    "variants": (
        f"{HORN}gesture call\n  contour: {', '.join(['C4', 'E4'] * 50)}\nexercises week\n  from: call\n"
        "  start: C4..A4 by 1\n  lasts: 40, 60 beats\n  tempo: 40..60 by 5\n", 6,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", sample(tuple(SLOW), 3))
def test_a_check_has_an_end(name):
    text, seconds = SLOW[name]
    report = within(seconds, lambda: compile_text(Source("a.gesture", text), Options(only_check=True)).report)
    assert report.errors == ()


def test_suggestions_have_an_end(tmp_path, monkeypatch, capsys):
    """The work for a file is counted: the same text gives the same answer, which says where it stopped."""
    monkeypatch.setattr(tester, "WORK", 2000)
    monkeypatch.chdir(tmp_path)
    names = [f"g{n}" for n in range(12)]
    Path("a.gesture").write_text(HORN + "".join(f"gesture {n}\n  contour: C4, G6\n" for n in names))
    said = []
    for _ in range(2):
        assert main(["check", "a.gesture"]) == 1
        said.append(capsys.readouterr().out)
    assert said[0] == said[1]
    assert 1 <= said[0].count("  try: ") < len(names)
    cut = re.search(r"no further suggestions were tried in this file: (g\d+)\b.*;\n", said[0])
    main(["check", "--json", "a.gesture"])
    untried = json.loads(capsys.readouterr().out)["files"][0]["untried"]
    assert cut[1] == untried[0]
    assert untried == names[-len(untried) :]
    assert f"gesturesmith suggest --only {untried[0]} tries that one" in said[0]
    main(["suggest", "a.gesture"])
    told = capsys.readouterr().out
    assert told.count("too much was tried in this file already") in (len(untried), len(untried) - 1)
    assert "no further suggestions were tried" in told
    main(["suggest", "--only", "g11", "a.gesture"])
    assert "now |   contour:" in capsys.readouterr().out
    assert main(["suggest", "--apply", "--only", "g11", "a.gesture"]) == 1
    assert "g11: contour: " in capsys.readouterr().out


def test_a_passage_is_part_of_what_is_tried(monkeypatch):
    """Judging a long passage again for every edit would take longest of all."""
    monkeypatch.setattr(tester, "WORK", 3000)
    play = ", ".join(["a"] * 500)
    text = f"{HORN}gesture a\n  contour: C4, G6\npassage all\n  play: {play}\n"
    made = []
    judged = tester.EditTester._judged_passages
    monkeypatch.setattr(tester.EditTester, "_judged_passages", lambda *a: made.append(a) or judged(*a))
    report = compile_text(Source("a.gesture", text), Options(only_check=True)).report
    assert report.untried[0] == "a"
    assert 0 < len(made) <= 4
