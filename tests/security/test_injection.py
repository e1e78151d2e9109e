"""The first wall: whatever a text holds, it is printed, and never read by LilyPond as its own.

The strings are put in behind the reader, where it cannot stop them: into the values of a piece, in every field that
holds a text.
"""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path, PurePosixPath

import pytest
from security import hostile

from gesturesmith import lytext, writers
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline import text as pipeline
from gesturesmith.sheets import document
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

TOKEN = "ZZZ"
FILE = f"""instrument: horn
pitches: written
tempo: "{TOKEN}" 72
title: "{TOKEN}"
subtitle: "{TOKEN}"
composer: "{TOKEN}"
part: "{TOKEN}"
gesture beacon "{TOKEN}"
  technique: half-valve
  contour: xG4 ~~ xD5
  text: "{TOKEN}"
  footnote: "{TOKEN}"
  note: "{TOKEN}"
gesture thrown "{TOKEN}"
  technique: harmonic-gliss
  contour: C4 ~~ E4
  allow: harmonic-gliss-too-few-partials "{TOKEN}"
passage calls "{TOKEN}"
  play: beacon, rest 2
"""
FIELDS = FILE.count(TOKEN)


@pytest.fixture(scope="session")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


def put_in(value, text):
    """The same value with the token replaced, however deep it lies."""
    if isinstance(value, str):
        return text if value == TOKEN else value
    if isinstance(value, tuple) and type(value) is tuple:
        return tuple(put_in(one, text) for one in value)
    if isinstance(value, dict):
        return {key: put_in(one, text) for key, one in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        changes = {
            field.name: new
            for field in dataclasses.fields(value)
            if field.init and (new := put_in(old := getattr(value, field.name), text)) is not old and new != old
        }
        return dataclasses.replace(value, **changes) if changes else value
    return value


def compiled(text, monkeypatch, **options):
    resolve = pipeline.resolve

    def resolved(tree, **more):
        piece, errors = resolve(tree, **more)
        return put_in(piece, text), errors

    with monkeypatch.context() as patched:
        patched.setattr(pipeline, "resolve", resolved)
        return compile_text(Source("study.gesture", FILE), Options(stem="study", **options))


def renamed(items, number):
    """The books of many files in one document: each with output names of its own."""
    return [(re.sub(r'\\bookOutputName "[^"]*"', f'\\\\bookOutputName "b{number}x{i}"', item.book), item)
            for i, item in enumerate(items)]  # fmt: skip


def raw(text):
    """A document where a text stands as it is, in the places ours stand in."""
    return (
        f'\\version "2.24.0"\n\\book {{ \\bookOutputName "a" \\header {{ title = "{text}" }} \\markup "{text}" }}\n'
        f'\\version "2.24.0"\n\\book {{ \\bookOutputName "b" \\markup {{ {text} }} }}\n'
    )


def test_there_are_enough_of_them():
    assert len(hostile.ALL) >= 200
    assert FIELDS == 12


def test_every_field_is_reached(monkeypatch):
    outcome = compiled("mark my words", monkeypatch, draft=True)
    (page,) = (i for i in outcome.items if i.kind == "page")
    # The subtitle, title, ... each once at least; the title of a gesture that is refused is on the page as well.
    assert page.book.count("mark my words") >= FIELDS - 1
    assert TOKEN not in page.book


def test_the_canary_sings(lilypond):
    """Put in raw, every one of the payloads runs: else the test below would show nothing."""
    for payload in hostile.PAYLOADS:
        with start(lilypond, ("svg",)) as waiting:
            waiting.feed(Job(document=f'\\version "2.24.0"\n{payload}\n\\book {{ \\markup "x" }}\n'))
            said = " ".join(m.text for m in waiting.result().messages)
        assert hostile.SIGNAL in said, payload


def test_most_ways_out_are_ways_out(lilypond):
    """Raw text in a title or a markup gets out of it in these ways: in one at least of the two places."""
    sung = 0
    some = [wrap.format(hostile.PAYLOADS[0]) for wrap in hostile.WRAPS if "\x00" not in wrap]
    for text in some:
        with start(lilypond, ("svg",)) as waiting:
            waiting.feed(Job(document=raw(text)))
            result = waiting.result()
        sung += any(hostile.SIGNAL in m.text for m in result.messages)
    assert sung >= len(some) // 2


@pytest.fixture(scope="module")
def books():
    """Every string in every field: page, snippets, and what goes into a composer's own score."""
    with pytest.MonkeyPatch.context() as monkeypatch:
        return {
            number: (text, compiled(text, monkeypatch, draft=bool(number % 2)).items)
            for number, text in enumerate(hostile.ALL)
        }


def some(number, items):
    """The page, where every field is, and now and then a snippet."""
    return items[: 1 if number % 5 else 2]


@pytest.fixture(scope="module")
def engraved(books, lilypond):
    """All pages and some snippets, as SVG whose text is text."""
    rows = [row for number, (_, items) in books.items() for row in renamed(some(number, items), number)]
    halves = [rows[: len(rows) // 2], rows[len(rows) // 2 :]]
    waiting = [start(lilypond, ("svg",), backend="svg") for _ in halves]
    files, messages = {}, []
    for one, half in zip(waiting, halves, strict=True):
        one.feed(Job(document=document(tuple(lytext.code(book) for book, _ in half)), timeout_s=240))
    for one in waiting:
        with one:
            run = one.result()
        assert run.ended == "", run.messages[-3:]
        files |= run.files
        messages += run.messages
    return files, messages


def test_nothing_runs(engraved):
    _, messages = engraved
    assert [m.text for m in messages if hostile.SIGNAL in m.text] == []
    # Fonts may have something to say: not every script is in them. The backend of SVG names what it cannot make.
    known = ("glyph", "font", "unsupported formats (png)")
    assert [m.text for m in messages if not any(word in m.text for word in known)] == []


def squeezed(text):
    return "".join(text.split())


def shown(svg):
    import html

    return squeezed(
        html.unescape(re.sub(r"<[^>]*>", "", "".join(re.findall(r"<text\b.*?</text>", svg, re.DOTALL))))
    )


def test_what_is_printable_is_printed_as_typed(books, engraved):
    """Spaces apart: a line may break there. Where a text is set as several words, they stand in order."""
    files, messages = engraved
    # What no font of this machine has cannot be printed; LilyPond names those characters.
    missing = {
        chr(int(code, 16)) for m in messages for code in re.findall(r"no glyph .*\(U\+([0-9A-F]+)\)", m.text)
    }
    lacking = []
    for number, (text, items) in books.items():
        wanted = "".join(c for c in squeezed(lytext.printable(text)) if c not in missing)
        for i, item in enumerate(some(number, items)):
            pages = sorted(n for n in files if re.fullmatch(rf"b{number}x{i}(-\d+)?(\.cropped)?\.svg", n))
            printed = "".join(c for n in pages for c in shown(files[n].decode()) if c not in missing)
            if wanted not in printed:
                lacking.append((text[:40], item.kind))
    assert lacking == []


def test_pictures_and_pdf_are_made_of_all(books, lilypond):
    """The same through the other ways out: nothing runs there either."""
    harmful = [n for n, (text, _) in books.items() if text in hostile.HARMFUL][::4]
    rows = [row for number in harmful for row in renamed(books[number][1][1:2], number)]
    with start(lilypond, ("pdf", "png", "svg") if lilypond.cairo else ("pdf", "png")) as waiting:
        waiting.feed(Job(document=document(tuple(lytext.code(book) for book, _ in rows)), timeout_s=240))
        run = waiting.result()
    assert run.ended == ""
    assert not [m for m in run.messages if hostile.SIGNAL in m.text]
    assert sum(name.endswith(".pdf") for name in run.files) == len(rows)


def test_the_ily_is_safe_in_the_score_of_somebody_else(books, lilypond, tmp_path):
    writer = writers.get("ily")
    (tmp_path / "s").mkdir()
    lines = ['\\version "2.24.0"']
    for number, (_, items) in list(books.items())[::4]:
        item = dataclasses.replace(items[1], place=PurePosixPath("s", f"n{number}"))
        for output in writer.outputs((item,), {}):
            path = tmp_path / output.place
            path.write_bytes(output.data)
            if output.place.stem == f"n{number}":
                lines.append(f'\\include "{path}"\n\\score {{ \\new Staff {{ \\"gesture-{item.name}" }} }}')
    # Read from disk as a composer's LilyPond would: without our folder, outside the sandbox.
    free = find(sandbox="never")
    with start(free, ("svg",)) as waiting:
        waiting.feed(Job(document="\n".join(lines), timeout_s=240))
        run = waiting.result()
    assert run.ended == "", run.messages[:3]
    assert not [m for m in run.messages if hostile.SIGNAL in m.text]


def test_only_one_place_makes_lilypond_text():
    """No module but `lytext` escapes or quotes by itself, and none makes `LyText` by naming the type."""
    package = Path(lytext.__file__).parent
    for path in sorted(package.rglob("*.py")):
        if path.name == "lytext.py":
            continue
        text = path.read_text("utf-8")
        assert 'replace("\\\\", "\\\\\\\\")' not in text, path
        if path.relative_to(package).parts[0] in ("engrave", "sheets", "pipeline", "batch"):
            assert not re.search(r"(?<!def )\bLyText\((?!\"\"\))", text), path
