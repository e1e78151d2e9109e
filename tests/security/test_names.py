"""Names of files and folders, patterns for names, and texts of profiles: whatever they contain, outputs stay in the
output folder, messages never control a terminal, and nothing runs."""

from __future__ import annotations

import json
import os
import re
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path, PurePosixPath
from types import SimpleNamespace

import pytest
from sampling import sample, whole
from security import hostile

from gesturesmith import instruments
from gesturesmith.cli.console import clean
from gesturesmith.cli.main import main
from gesturesmith.delivery import Blocked, deliver
from gesturesmith.instruments.profile import load
from gesturesmith.model.piece import Settings
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.naming import delivery_name, unknown_fields
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.source import Source
from gesturesmith.writers import Output

SOAK = bool(os.environ.get("GESTURESMITH_SOAK"))
# The only unprintable characters a terminal may get from us: newlines, colours, and overwriting a line.
OURS = re.compile(r"\n|\x1b\[(?:0|1;3[0-9])m|\r\x1b\[K")
HORN = "instrument: horn\npitches: written\n"
GOOD = f"{HORN}gesture call\n  contour: C4, G4\n"
# Possible file names, once for each way of showing them: strings reduced to what a name can contain.
NAMES = tuple(
    {
        clean(name).casefold().replace("\n", "\ufffd"): name
        for text in hostile.ALL[:: 1 if SOAK else 2]
        if (name := text.replace("/", "").replace("\0", ""))
        and len(os.fsencode(name.encode("utf-8", "replace"))) < 240
    }.values()
)
STRANGE_NAMES = (
    ".",
    "..",
    "-",
    "--help",
    "-o",
    " ",
    "a\nb",
    "\udcff and \udcfe",
    "con",
    "a:b",
    "x" * 240,
    "*",
    "~",
    "$HOME",
)


class Terminal:
    """Records output like a terminal, also output in bytes."""

    encoding = "utf-8"

    def __init__(self) -> None:
        self.said: list[str] = []
        self.buffer = SimpleNamespace(write=lambda data: self.write(data.decode()), flush=self.flush)

    def run(self, *arguments: str) -> int:
        with redirect_stdout(self), redirect_stderr(self):
            return main(list(arguments))

    def isatty(self) -> bool:
        return True

    def write(self, text: str) -> None:
        self.said.append(text)

    def flush(self) -> None:
        pass

    @property
    def odd(self) -> list[str]:
        """Forbidden characters in the output, with some context."""
        plain = OURS.sub("", "".join(self.said))
        return [plain[max(0, n - 40) : n + 9] for n, sign in enumerate(plain) if not sign.isprintable()]


@pytest.fixture
def terminal(monkeypatch):
    """A terminal for the command."""
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    return Terminal()


@pytest.fixture
def files(tmp_path, monkeypatch):
    """A folder with a hostile name full of files with hostile names; beside it a list of what was there."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    folder = Path("in", NAMES[0])
    folder.mkdir(parents=True)
    for name in (*NAMES, *STRANGE_NAMES):
        path = (
            os.fsencode(folder) + b"/" + name.encode("utf-8", "surrogateescape" if "\udcff" in name else "replace")
        )
        with open(path + b".gesture", "w") as file:
            file.write(GOOD)
    return folder


def everything(folder="."):
    return {os.path.join(place, name) for place, _, names in os.walk(folder) for name in names}


@whole
def test_outputs_of_any_name_stay_in_their_folder(files, terminal):
    """By folder, where hidden files are skipped, and one by one."""
    before = everything()
    each = [os.path.join(files, name) for name in sorted(os.listdir(files))]
    assert terminal.run("engrave", "--as", "ly,ily", "-o", "deep/out", "--manifest", "deep/out/m.json", "in") == 0
    assert terminal.run("engrave", "--as", "ly", "-o", "deep/each", *each) == 0
    made = {name for name in everything() - before if not name.startswith("./cache/")}
    assert len(made) > 3 * len(NAMES) > 300
    assert all(name.startswith(("./deep/out/", "./deep/each/")) for name in made)
    assert all(sign.isprintable() for name in made for sign in name)
    assert before <= everything()
    assert terminal.odd == []
    manifest = Path("deep/out/m.json").read_text("utf-8")
    outputs = [output["file"] for output in json.loads(manifest)["outputs"]]
    assert all(Path("deep/out", name).is_file() for name in outputs)
    assert manifest.replace("\n", "").isprintable()


@pytest.mark.parametrize(
    "command", sample([["check"], ["check", "--json"], ["suggest"], ["format"], ["notes", "--as", "ly"]], 3)
)
def test_names_are_told_without_harm(files, terminal, command):
    each = [os.path.join(files, name) for name in sorted(os.listdir(files))]
    assert terminal.run(*command, *each) == 0
    assert terminal.odd == []


def test_lilypond_never_hears_of_a_name():
    """Its input is the same whatever the names of the file and its folder."""
    source = Source("study.gesture", f"{GOOD}exercises week\n  from: call\n  lasts: 4, 2 beats\n")

    def texts(stem):
        place = PurePosixPath(stem or "x")
        items = (
            *compile_text(source, Options(stem=stem, place=place, notes=NotesOptions())).items,
            *compile_sheet((source,), SheetOptions(stem=stem, place=place)).items,
        )
        return [(item.book, item.document, item.ily) for item in items]

    usual = texts("study")
    assert len(usual) == 4
    for name in (*NAMES[:: 1 if SOAK else 6], *STRANGE_NAMES):
        assert texts(name) == usual


# --- patterns -----------------------------------------------------------------------------------------------


def plain_name(name):
    """Whether a name stays in its folder on any system."""
    assert PurePosixPath(name).parts == (name,)
    assert not set(name) & set('\\/:*?"<>|')
    assert name.isprintable()
    assert name.strip(". ") == name
    assert len(name.encode()) <= 130


def test_patterns_give_plain_names_whatever_is_filled_in():
    for text in (*hostile.ALL, *STRANGE_NAMES):
        settings = Settings(
            instrument=instruments.get("horn"),
            pitches="written",
            title=text,
            composer=text,
            subtitle=text,
            part=text,
        )
        for pattern in ("{title}", "{composer}-{title}-{part}", "../{title}/{composer}", "{file}", "/{subtitle}"):
            plain_name(delivery_name(pattern, settings, "stem") if "file" not in pattern else "stem")
        if not unknown_fields(text):
            plain_name(delivery_name(f"{text}{{title}}", settings, "stem"))


@pytest.mark.parametrize("place", ["../a.ly", "a/../../b.ly", "/tmp/c.ly"])
def test_nothing_is_delivered_outside(tmp_path, place):
    """A second check: should a name ever lead outside, nothing is written."""
    said = deliver([Output(place=PurePosixPath(place), data=b"")], tmp_path / "out", inputs=())
    assert isinstance(said, Blocked)
    assert "outside" in said.reason
    assert list(tmp_path.iterdir()) == []


# --- profiles -----------------------------------------------------------------------------------------------


def toml(text):
    """A text in TOML, without characters that TOML cannot contain."""
    return json.dumps(text.encode("utf-8", "ignore").decode())


PROFILE = """instrument_profile = 1
based_on = "horn"
key = {text}
name = {text}
part_name = {text}
abbreviation = {text}
usual_range = {{ low = "C2", high = "F5", source = {text} }}
[limits]
breath_litres = {{ narrow = 0.5, wide = 0.6, kind = "practice", source = {text} }}
"""
LONG = """instrument: "{}"
pitches: written
gesture call
  contour: C4, G4, C5, G5
  lasts: 40 s
  dynamics: ff
"""


@whole
def test_texts_of_profiles(tmp_path, monkeypatch, terminal):
    """Accepted unchanged or refused by name; reported safely; never the name of a file elsewhere."""
    monkeypatch.chdir(tmp_path)
    taken = 0
    for number, text in enumerate((*hostile.ALL, "../../away", "/away", "..")):
        path = Path(f"p{number}.toml")
        path.write_text(PROFILE.format(text=toml(text)), "utf-8")
        found, errors = load(path)
        if not SOAK and number % 4 and "away" not in text:
            continue
        Path("study.gesture").write_text(LONG.format(path))
        status = terminal.run("check", "study.gesture")
        if found is None:
            assert errors
            assert status == 2
            continue
        assert found.name == found.part_name == json.loads(toml(text))
        assert status in (0, 1)
        taken += 1
        if "away" in text or number % 40 == 0:
            assert terminal.run("chart", "--kind", "ladders", "--as", "ly", "-o", "o/out", str(path)) == 0
    assert taken > (150 if SOAK else 35)
    assert terminal.odd == []
    assert all(not name.startswith("./o/") or name.startswith("./o/out/") for name in everything())
    assert {name for name in os.listdir(tmp_path) if not name.startswith("p")} == {"study.gesture", "o"}


# --- all messages -------------------------------------------------------------------------------------------

EVIL = "\x1b]0;owned\x07\x9b31m\u202e\x00\x7f\r" + hostile.PAYLOADS[0]
FILES = {
    "control": f'{HORN}title: "{EVIL}"\ngesture call "{EVIL}"\n  contour: C4\n',
    "words": f"{HORN}{EVIL}: {EVIL}\ngesture {EVIL}\n  contour: {EVIL}\n  {EVIL}: C4\n",
    "titles": HORN + "".join(
        f"gesture g{number} {json.dumps(text)}\n  contour: C7\n  text: {json.dumps(text)}\n"
        for number, text in enumerate(t for t in hostile.ALL if "\n" not in t and "\0" not in t)
    ),
    "settings": f"instrument: {EVIL}\npitches: {EVIL}\nwording: {EVIL}\npaper: {EVIL}\n",
    "profile": f'instrument: "{EVIL}.toml"\npitches: written\n',
    "rules": f"{HORN}gesture call\n  contour: C4\n  technique: {EVIL}\n  allow: {EVIL}\n",
}  # fmt: skip
ARGUMENTS = (
    *(["check", name] for name in FILES),
    *(["check", "--json", name] for name in FILES),
    *(["suggest", name] for name in FILES),
    *(["format", name] for name in FILES),
    *(["engrave", "--as", "ly", "--draft", name] for name in FILES),
    *(["notes", "--as", "ly", "--version-line", EVIL, "--date", EVIL, name] for name in FILES),
    *(["sheet", "--as", "ly", name] for name in FILES),
    ["engrave", "good", "--as", EVIL],
    ["engrave", "good", "--as", "ly", "--only", EVIL],
    ["engrave", "good", "--as", "ly", "-o", f"out{EVIL}"],
    ["engrave", "good", "--as", "ly", "--manifest", f"m{EVIL}/m.json"],
    ["engrave", "good", "--as", "ly", "--name", EVIL],
    ["engrave", "good", "--as", "ly", "--name", f"{{{EVIL}}}"],
    ["engrave", "good", "--lilypond", EVIL],
    ["engrave", "good", "--profiles", EVIL],
    ["engrave", "good", "--sandbox", EVIL],
    ["engrave", "good", "--jobs", EVIL],
    ["engrave", f"--{EVIL}", "good"],
    ["notes", "good", "--wording", EVIL],
    ["sheet", "--technique", EVIL, "--instrument", "horn"],
    ["sheet", "--technique", "bend", "--instrument", EVIL],
    ["sheet", "--technique", "bend", "--instrument", "horn", "--level", EVIL],
    ["chart", EVIL],
    ["chart", f"{EVIL}.toml"],
    ["chart", "horn", "--kind", EVIL],
    ["chart", "horn", "--paper", EVIL],
    ["suggest", "good", "--only", EVIL],
    ["suggest", "high", "--apply", "-o", f"copy{EVIL}"],
    ["explain", EVIL],
    ["list", EVIL],
    ["list", "instruments", "--show", EVIL],
    ["new", f"fresh{EVIL}"],
    ["new", f"{EVIL}/fresh"],
    ["check", EVIL],
    ["check", f"in/{EVIL}"],
    [EVIL],
)


def test_nothing_said_steers_a_terminal(tmp_path, monkeypatch, terminal):
    """Whatever a file contains and whatever is asked, with colours and a progress line."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "cache"))
    for name, text in (*FILES.items(), ("good", GOOD), ("high", GOOD.replace("G4", "G6"))):
        Path(name).write_bytes(text.encode("utf-8", "surrogateescape").replace(b"\r", b""))
    for arguments in sample(ARGUMENTS, 4):
        terminal.said.clear()
        assert terminal.run(*(a.replace("\0", "") for a in arguments)) in (0, 1, 2, 3)
        assert "".join(terminal.said).strip(), arguments[:3]
        assert terminal.odd == [], arguments
        if "--json" in arguments:
            json.loads("".join(s for s in terminal.said if not s.startswith("\r")))
    assert not list(tmp_path.rglob("canary"))


@pytest.mark.parametrize(
    "arguments",
    [
        ["engrave", "good", "--as", "ly", "--manifest"],
        ["engrave", "good", "--as", "ly", "--profiles"],
        ["engrave", "good", "--as", "ly", "-o"],
        ["suggest", "high", "--apply", "-o"],
        ["new"],
        ["check"],
    ],
    ids=" ".join,
)
def test_a_name_longer_than_any_is_no_fault_of_the_machine(tmp_path, monkeypatch, terminal, arguments):
    monkeypatch.chdir(tmp_path)
    Path("good").write_text(GOOD)
    Path("high").write_text(GOOD.replace("G4", "G6"))
    assert terminal.run(*arguments, "x" * 300) == 2
    assert "too long" in "".join(terminal.said) or "no such" in "".join(terminal.said)
