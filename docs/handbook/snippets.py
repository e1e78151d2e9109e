"""The snippets of a page: each is run, and the output shown is compared.

A snippet is a fenced block whose first word says what it is; a second word is the name of its file:

    gesture [NAME]   a gesture file that can be read
    toml [NAME]      TOML; with a name, a readable profile, a delivery file or a plan of lessons
    console          commands after "$ ", each followed by its output; a final line "..." stands for the rest. If no
                     output is shown, nothing is compared. The exit status must be 0, or 1 if something is not as
                     written
    python [NAME]    a session with ">>> ", whose output is compared; without, a program that must run to its end
    lilypond         a score, engraved in the same folder without a warning
    make             targets of the Makefile, and pip extras of this project
    usage            the synopsis of a command, which must exist with its options
    json             JSON
    text             neither a program nor the output of one

Each page has its own folder. If one of its snippets is a file of the package, such as gesturesmith/rules/NAME.py,
its commands run in a copy of the package that includes the file.
"""

from __future__ import annotations

import contextlib
import doctest
import io
import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
KINDS = ("gesture", "toml", "console", "python", "lilypond", "make", "usage", "json", "text")
MADE = re.compile(r"(?<=\]\()made:([^)\s]+)(?=\))")  # a picture on a page that its own snippets make
_FENCE = re.compile(
    r"^(?P<fence>`{3,})(?P<info>[^`\n]*)\n(?P<body>.*?)^(?P=fence)[ \t]*$", re.DOTALL | re.MULTILINE
)
_INDENTED = re.compile(r"\n\n {4}\S[^\n]*")
_ANY = "..."


@dataclass(frozen=True)
class Snippet:
    """One fenced block: its kind, its file or "", its text, and the line where the text begins."""

    kind: str
    name: str
    text: str
    line: int
    start: int


@dataclass
class Page:
    """A page being processed: its snippets run in order, in the page's own folder."""

    folder: Path
    faults: list[str] = field(default_factory=list)
    names: dict[str, object] = field(default_factory=dict)
    package: bool = False

    def fault(self, snippet: Snippet, text: str) -> None:
        self.faults.append(f"line {snippet.line}: {text}")


def snippets(text: str) -> Iterator[Snippet]:
    """The fenced blocks of a page, except Markdown directives (`{name}`)."""
    for found in _FENCE.finditer(text):
        words = found["info"].split()
        if words and words[0].startswith("{"):
            continue
        line = text.count("\n", 0, found.start("body")) + 1
        kind, name, *_ = (*words, "", "")
        yield Snippet(kind, name, found["body"], line, found.start("body"))


def run(text: str, folder: Path) -> list[str]:
    """Run all snippets of a page in an empty folder; returns what is wrong with them."""
    return _read(text, folder)[0]


def refreshed(text: str, folder: Path, *, everything: bool = False) -> str:
    """The page with the current output of its commands and Python sessions.

    everything   also for commands without shown output
    """
    _, printed = _read(text, folder, everything=everything)
    for start, length, output in sorted(printed, reverse=True):
        text = text[:start] + output + text[start + length :]
    return text


def _read(text: str, folder: Path, *, everything: bool = False) -> tuple[list[str], list[tuple[int, int, str]]]:
    page = Page(folder)
    printed: list[tuple[int, int, str]] = []
    found = list(snippets(text))
    page.package = any(s.name.startswith("gesturesmith/") for s in found)
    if page.package:
        for name in ("gesturesmith", "templates"):
            shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "docs").mkdir()
    shutil.copytree(ROOT / "docs" / "demo", folder / "docs" / "demo")
    bare = _FENCE.sub(lambda block: "\n" * block[0].count("\n"), text)
    for loose in _INDENTED.finditer(bare):
        before = bare[: loose.start()].rsplit("\n", 1)[-1].lstrip()
        if not before.startswith(("-", "*")) and not re.match(r"\d+\.", before):
            line = bare.count("\n", 0, loose.start()) + 3
            page.faults.append(f"line {line}: a block without a fence says of no snippet what it is")
    with _inside(folder):
        for snippet in found:
            if snippet.kind not in KINDS:
                page.fault(snippet, f"a block of kind {snippet.kind!r}; there are {', '.join(KINDS)}")
                continue
            if snippet.name:
                place = Path(snippet.name)
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_text(snippet.text, "utf-8")
            if snippet.kind == "console":
                printed += _console(page, snippet, everything)
            elif snippet.kind == "python":
                printed += _python(page, snippet)
            else:
                _RUN[snippet.kind](page, snippet)
    return page.faults, printed


@contextlib.contextmanager
def _inside(folder: Path) -> Iterator[None]:
    """Work in a folder, with an empty cache and without colour."""
    before, here = dict(os.environ), Path.cwd()
    os.environ |= {"GESTURESMITH_CACHE": str(folder / ".cache"), "NO_COLOR": "1", "COLUMNS": "100"}
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(here)
        os.environ.clear()
        os.environ.update(before)


def _gesture(page: Page, snippet: Snippet) -> None:
    if page.package:
        status, said = _gesturesmith(page, ["check", snippet.name])
        if status not in (0, 1):
            page.fault(snippet, said)
        return
    from gesturesmith.pipeline import Options, compile_text
    from gesturesmith.source import Source

    options = Options(folder=page.folder, only_check=True)
    report = compile_text(Source(snippet.name or "snippet", snippet.text), options).report
    for error in report.errors:
        page.fault(snippet, f"cannot be read: line {error.span.line} of the snippet: {error.message}")


def _toml(page: Page, snippet: Snippet) -> None:
    values = tomllib.loads(snippet.text)
    if "delivery" in values and snippet.name:
        from gesturesmith.dispatch import file as delivery

        said = delivery.load(str(page.folder / snippet.name))
        if isinstance(said, tuple):
            page.fault(snippet, "\n".join(said))
    elif "lesson_plan" in values and snippet.name:
        from gesturesmith.exercises import term_file

        _, errors = term_file.read_plan(page.folder / snippet.name)
        for error in errors:
            page.fault(snippet, error.message)
    elif snippet.name:
        reading = f'instrument: "{snippet.name}"\npitches: written\n'
        _gesture(page, Snippet("gesture", "", reading, snippet.line, snippet.start))


def _console(page: Page, snippet: Snippet, everything: bool) -> Iterator[tuple[int, int, str]]:
    """Run each command of a session; returns where its output is shown, and its actual output."""
    start = snippet.start
    for part in re.split(r"^(?=\$ )", snippet.text, flags=re.MULTILINE):
        if not part:
            continue
        if not part.startswith("$ "):
            page.fault(snippet, f"not a command: {part.splitlines()[0]!r}")
            continue
        command, shown = _parted(part)
        status, output = _command(page, command)
        output = "\n".join(line.rstrip() for line in output.splitlines()).strip("\n")
        if status not in (0, 1) or (status and not command.startswith("gesturesmith ")):
            page.fault(snippet, f"$ {command}\nends with {status}:\n{output}")
        elif everything and not shown.strip():
            yield start + len(part), 0, f"{output}\n"
        elif shown.strip() and not _alike(shown, output):
            page.fault(snippet, f"$ {command}\nprints\n{output}\nand not\n{shown.strip()}")
            tail = "\n" * (len(shown) - len(shown.rstrip("\n")))
            yield start + len(part) - len(shown), len(shown), _shortened(output, shown) + tail
        start += len(part)


def _parted(part: str) -> tuple[str, str]:
    """A command, whose lines may end in a backslash, and the output shown below it."""
    lines = part[2:].splitlines(keepends=True)
    n = 1
    while lines[n - 1].rstrip().endswith("\\"):
        n += 1
    return "".join(lines[:n]).replace("\\\n", " ").strip(), "".join(lines[n:])


def _alike(shown: str, output: str) -> bool:
    """Whether the output is as shown, or begins like it if "..." ends the shown text."""
    return _shortened(output, shown) == "\n".join(line.rstrip() for line in shown.strip("\n").split("\n"))


def _shortened(output: str, shown: str) -> str:
    """As many lines of an output as are shown, if "..." ends the shown text; else all."""
    lines = shown.strip("\n").split("\n")
    return "\n".join((*output.split("\n")[: len(lines) - 1], _ANY)) if lines[-1] == _ANY else output


def _command(page: Page, command: str) -> tuple[int, str]:
    """The exit status of a command, with its output and messages."""
    try:
        return _done(page, shlex.split(command))
    except OSError as error:
        return 2, str(error)


def _done(page: Page, words: list[str]) -> tuple[int, str]:
    match words:
        case ["mkdir", name]:
            Path(name).mkdir(parents=True)
        case ["cp", *files, there]:
            for name in files:
                shutil.copy(name, there)
        case ["cat", name]:
            return 0, Path(name).read_text("utf-8")
        case ["ls", *names]:
            folder = Path(names[0] if names else ".")
            return 0, "\n".join(sorted(p.name for p in folder.iterdir() if not p.name.startswith(".")))
        case ["gesturesmith", *arguments]:
            return _gesturesmith(page, arguments)
        case ["python", *arguments]:
            return _program([sys.executable, *arguments])
        case _:
            return 2, "not a command that pages run"
    return 0, ""


def _gesturesmith(page: Page, arguments: list[str]) -> tuple[int, str]:
    if page.package:
        return _program([sys.executable, "-m", "gesturesmith.cli.main", *arguments])
    from gesturesmith.cli.main import main

    taken = io.BytesIO()
    stream = io.TextIOWrapper(taken, encoding="utf-8", write_through=True)
    with contextlib.redirect_stdout(stream), contextlib.redirect_stderr(stream):
        status = main(arguments)
    return status, taken.getvalue().decode()


def _program(words: list[str]) -> tuple[int, str]:
    done = subprocess.run(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)
    return done.returncode, done.stdout


def _python(page: Page, snippet: Snippet) -> Iterator[tuple[int, int, str]]:
    if page.package and snippet.name:
        return  # a file of the package: the following commands use it
    if ">>> " not in snippet.text:
        exec(compile(snippet.text, snippet.name or "snippet", "exec"), page.names)
        return
    test = doctest.DocTestParser().get_doctest(snippet.text, page.names, "snippet", None, snippet.line)
    said = io.StringIO()
    runner = _Answers(optionflags=doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE)
    runner.run(test, out=said.write, clear_globs=False)
    page.names |= test.globs
    if said.getvalue():
        page.fault(snippet, said.getvalue())
    lines = snippet.text.splitlines(keepends=True)
    for example, got in runner.wrong:
        first = example.lineno + example.source.count("\n")
        start = snippet.start + sum(map(len, lines[:first]))
        yield start, len(example.want), re.sub(r"^$\n", "<BLANKLINE>\n", got, flags=re.MULTILINE)


class _Answers(doctest.DocTestRunner):
    """Runs a session and records every answer that differs from the page."""

    def __init__(self, **options: int) -> None:
        super().__init__(**options)
        self.wrong: list[tuple[doctest.Example, str]] = []

    def report_failure(self, out: Any, test: doctest.DocTest, example: doctest.Example, got: str) -> None:
        super().report_failure(out, test, example, got)
        self.wrong.append((example, got))


def _lilypond(page: Page, snippet: Snippet) -> None:
    from gesturesmith.lilypond import MissingLilyPond, find

    lilypond = find()
    if isinstance(lilypond, MissingLilyPond):
        page.fault(snippet, lilypond.reason)
        return
    Path("out").mkdir(exist_ok=True)
    score = Path("out/score.ly")
    score.write_text(f'\\version "2.24.0"\n{snippet.text}', "utf-8")
    status, said = _program([str(lilypond.path), "--loglevel=WARNING", "--output=out/score", str(score)])
    if status or said.strip():
        page.fault(snippet, f"LilyPond ends with {status}:\n{said}")


def _make(page: Page, snippet: Snippet) -> None:
    targets = re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text("utf-8"), re.MULTILINE)
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["optional-dependencies"]
    for line in snippet.text.splitlines():
        match shlex.split(line, comments=True):
            case []:
                pass
            case ["make", *names] if set(names) <= {*targets}:
                pass
            case ["pip", "install", *_, what] if set(re.findall(r"\[(.+)\]", what)) <= {*extras}:
                pass
            case _:
                page.fault(snippet, f"neither a target of the Makefile nor an extra of the project: {line}")


def _usage(page: Page, snippet: Snippet) -> None:
    from gesturesmith.cli.group import cli

    command, there = "", set()
    for line in snippet.text.splitlines():
        called = re.match(r"gesturesmith ([a-z-]+)", line)
        if called:
            command = called[1]
            found = cli.get_command(None, command)  # type: ignore[arg-type]
            there = {o for p in found.params for o in p.opts} if found else set()
            if found is None:
                page.fault(snippet, f"there is no command {command}")
        before = line.split("   ")[0] if called else line if line.strip().startswith("[") else ""
        for option in re.findall(r"(?<![\w-])--?[a-z][a-z-]*", before):
            if option not in there:
                page.fault(snippet, f"{command} has no {option}")


def _json(page: Page, snippet: Snippet) -> None:
    json.loads(snippet.text)


def _text(page: Page, snippet: Snippet) -> None:
    if re.search(r"^\s*(\$ |>>> |gesturesmith |(gesture|passage|instrument)\b.*[\":])", snippet.text, re.MULTILINE):
        page.fault(snippet, "a program, or a gesture, that is not run: say what it is in the fence")


_RUN = {
    "gesture": _gesture,
    "toml": _toml,
    "lilypond": _lilypond,
    "make": _make,
    "usage": _usage,
    "json": _json,
    "text": _text,
}
