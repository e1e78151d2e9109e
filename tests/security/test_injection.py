"""The first line of defence: whatever a text contains, it is printed and never run by LilyPond.

The strings are inserted after the reader, where it cannot stop them: into the values of a piece, a different one in
every text field. `make test` puts every string into some fields, `make soak` every string into all.
"""

from __future__ import annotations

import dataclasses
import html
import random
import re
from pathlib import Path, PurePosixPath

import pytest
from sampling import SOAK, WHOLE, sample
from security import hostile

from gesturesmith import instruments, lytext, writers
from gesturesmith.lilypond import Job, LilyPond, find, start
from gesturesmith.model import reading
from gesturesmith.model.piece import Settings
from gesturesmith.model.resolve import resolve
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.chart import ChartOptions, compile_chart
from gesturesmith.pipeline.notes import compile_notes
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.pipeline.types import NotesOptions
from gesturesmith.sheets import document
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

FIELDS = (
    "tempo", "title", "subtitle", "composer", "part", "beacon", "text", "footnote", "note", "thrown", "allow",
    "passage", "exercises", "instruction", "name", "part name", "abbreviation", "version",
)  # fmt: skip
TOKENS = {field: f"ZZ{number:02d}" for number, field in enumerate(FIELDS)}
FILE = """instrument: horn
pitches: written
tempo: "{tempo}" 72
title: "{title}"
subtitle: "{subtitle}"
composer: "{composer}"
part: "{part}"
gesture beacon "{beacon}"
  technique: half-valve
  contour: xG4 ~~ xD5
  text: "{text}"
  footnote: "{footnote}"
  note: "{note}"
gesture thrown "{thrown}"
  technique: harmonic-gliss
  contour: C4 ~~ E4
  allow: harmonic-gliss-too-few-partials "{allow}"
passage calls "{passage}"
  play: beacon, rest 2
exercises daily "{exercises}"
  from: beacon
  lasts: 4, 2 beats
  instruction: "{instruction}"
""".format(**TOKENS)

# Where fields are printed: a `note` nowhere, the reason of an `allow` in a draft, the instrument's name if the part
# has no other.
_PAGE = ("tempo", "title", "subtitle", "composer", "part", "beacon", "text", "footnote", "thrown", "passage")
PRINTED = {
    "page": _PAGE,
    "draft": (*_PAGE, "allow"),
    "notes": ("title", "composer", "part", "footnote", "version"),
    "sheet": ("exercises", "instruction", "title", "composer", "part"),
    "chart": ("part name",),
}

# In random order, so that neighbours in the table go to different fields.
STRINGS = random.Random(6).sample(hostile.ALL, len(hostile.ALL))
_APART = -(-len(STRINGS) // 12)  # this many files put every string into one of the page's fields
FILES = sample(range(len(STRINGS) if SOAK else _APART), 3)


def texts(number):
    """A different string for each field, and over all files every string in each field."""
    return {field: STRINGS[(number + _APART * place) % len(STRINGS)] for place, field in enumerate(FIELDS)}


@pytest.fixture(scope="session")
def lilypond() -> LilyPond:
    found = find()
    assert isinstance(found, LilyPond)
    return found


def put_in(value, strings):
    """The same value with tokens replaced at any depth."""
    if isinstance(value, str):
        return " ".join(strings.get(word, word) for word in value.split(" "))
    if isinstance(value, tuple) and type(value) is tuple:
        return tuple(put_in(one, strings) for one in value)
    if isinstance(value, dict):
        return {key: put_in(one, strings) for key, one in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        changes = {
            field.name: new
            for field in dataclasses.fields(value)
            if field.init and (new := put_in(old := getattr(value, field.name), strings)) is not old and new != old
        }
        return dataclasses.replace(value, **changes) if changes else value
    return value


def instrument(strings):
    horn = instruments.get("horn")
    names = {"name": "name", "part_name": "part name", "abbreviation": "abbreviation"}
    return dataclasses.replace(horn, **{field: strings[ours] for field, ours in names.items()})


def compiled(compile_, options, strings):
    """The result of a path from text to pages, for the file with these strings."""
    replaced = {TOKENS[field]: text for field, text in strings.items()}

    def resolved(tree, **more):
        piece, errors = resolve(tree, **more)
        settings = dataclasses.replace(put_in(piece.settings, replaced), instrument=instrument(strings))
        return dataclasses.replace(put_in(piece, replaced), settings=settings), errors

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(reading, "resolve", resolved)
        return compile_((Source("study.gesture", FILE),), options).items


def pages(number, strings):
    """The items of a file, with their kinds: pages of every kind in turn."""
    draft = bool(number % 2)
    options = Options(stem="study", draft=draft)
    made = compiled(lambda sources, wanted: compile_text(sources[0], wanted), options, strings)
    found = [("draft" if draft else "page", made[0]), ("snippet", made[1])]
    kind = number % 3 if SOAK else number % 6
    if kind == 0:
        wanted = NotesOptions(stem=f"n{number}", version=strings["version"], columns=1 + number % 2)
        found += [("notes", item) for item in compiled(compile_notes, wanted, strings)]
    elif kind == 1:
        found += [("sheet", item) for item in compiled(compile_sheet, SheetOptions(), strings)]
    elif kind == 2 and (SOAK or number == 2):  # they take ten times as long as other pages
        settings = Settings(instrument=instrument(strings), pitches="written")
        chart = ("fingering", "ladders", "quarter-tones", "map")[number // 3 % 4]
        items = compile_chart((), ChartOptions(kinds=(chart,), settings=settings)).items
        found += [("chart", item) for item in items if item.kind == "page"]
    return found


def renamed(book, name):
    """A book in a document of many, under its own output name."""
    return re.sub(r'\\bookOutputName "[^"]*"', f'\\\\bookOutputName "{name}"', book)


def raw(text):
    """A document with a raw text in the places where ours go."""
    return (
        f'\\version "2.24.0"\n\\book {{ \\bookOutputName "a" \\header {{ title = "{text}" }} \\markup "{text}" }}\n'
        f'\\version "2.24.0"\n\\book {{ \\bookOutputName "b" \\markup {{ {text} }} }}\n'
    )


def run(lilypond, text, formats=("svg",), backend=""):
    with start(lilypond, formats, backend=backend) as waiting:
        waiting.feed(Job(document=text, timeout_s=240))
        return waiting.result()


def sung(result):
    return [m.text for m in result.messages if hostile.SIGNAL in m.text]


def test_there_are_enough_of_them():
    assert len(hostile.ALL) >= 200
    # The page's fields have every string between them, a third of them in `make test`.
    on_page = {texts(number)[field] for number in FILES for field in FIELDS[:12]}
    assert on_page == set(hostile.ALL) if WHOLE else len(on_page) > len(hostile.ALL) / 3


def test_every_field_is_reached():
    strings = {field: f"mark {number} my words" for number, field in enumerate(FIELDS)}
    for number in range(3):
        for kind, item in pages(number, strings):
            for field in PRINTED.get(kind, ()):
                assert strings[field] in item.book, (kind, field)
            assert "ZZ" not in item.book


def test_the_canary_sings(lilypond):
    """Inserted raw, every payload runs: otherwise the tests below would prove nothing."""
    for payload in sample(hostile.PAYLOADS, 3):
        assert sung(run(lilypond, f'\\version "2.24.0"\n{payload}\n\\book {{ \\markup "x" }}\n')), payload


def test_most_ways_out_are_ways_out(lilypond):
    """Raw text escapes from a title or a markup in these ways: in at least one of the two places."""
    some = [wrap.format(hostile.PAYLOADS[0]) for wrap in hostile.WRAPS if "\x00" not in wrap]
    some = some if SOAK else some[::3]
    assert sum(bool(sung(run(lilypond, raw(text)))) for text in some) >= len(some) // 2


def squeezed(text):
    return "".join(text.split())


def shown(svg):
    return squeezed(
        html.unescape(re.sub(r"<[^>]*>", "", "".join(re.findall(r"<text\b.*?</text>", svg, re.DOTALL))))
    )


SIGNS = set("♯♭")  # printed as signs of the music font, not as text


def missing(result):
    """Characters not printed as text: those missing from all fonts, which LilyPond names, and musical signs."""
    found = (re.findall(r"no glyph .*\(U\+([0-9A-F]+)", m.text) for m in result.messages)
    return SIGNS | {chr(int(code, 16)) for codes in found for code in codes}


def wanted(text, without):
    return "".join(c for c in squeezed(lytext.printable(text)) if c not in without)


def test_every_string_in_every_way_that_text_is_written(lilypond):
    """As a markup, in a Scheme list, as the name of a variable, in a comment: nothing runs, all is printed."""
    lines = ['\\version "2.24.0"']
    for text in hostile.ALL:
        lines += [lytext.comment(text), f"{lytext.variable(text)} = {{ c'4 }}", f"\\void \\{lytext.variable(text)}"]
    lines.append('\\book { \\bookOutputName "all"')
    for text in hostile.ALL:
        quoted = lytext.quoted(text)
        lines.append(f'\\markup \\column {{ {quoted} #(car \'({quoted} . "z")) }}')
    result = run(lilypond, "\n".join((*lines, "}")), backend="svg")
    assert result.ended == "", result.messages[-3:]
    assert not sung(result)
    without = missing(result)
    printed = "".join(shown(result.files[name].decode()) for name in sorted(result.files, key=_page_number))
    printed = "".join(c for c in printed if c not in without)
    at = 0
    for text in hostile.ALL:
        both = 2 * wanted(text, without)
        at = printed.find(both, at)
        assert at >= 0, text
        at += len(both)


def _page_number(name):
    return int(re.search(r"(\d*)\.svg", name)[1] or 0)


@pytest.fixture(scope="module")
def books():
    """Pages of every kind with the strings in every field, by output name: kind, strings, item."""
    return {
        f"b{number}x{place}": (kind, strings, item)
        for number in FILES
        for strings in (texts(number),)
        for place, (kind, item) in enumerate(pages(number, strings))
    }


@pytest.fixture(scope="module")
def engraved(books, lilypond):
    """All pages and some snippets, as SVG with text as text."""
    names = [name for name, (kind, _, _) in books.items() if kind != "snippet" or name.endswith("0x1")]
    halves = [names[::2], names[1::2]]
    waiting = [start(lilypond, ("svg",), backend="svg") for _ in halves]
    files, messages = {}, []
    for one, half in zip(waiting, halves, strict=True):
        one.feed(Job(document=document(tuple(renamed(books[n][2].book, n) for n in half)), timeout_s=3000))
    for one in waiting:
        with one:
            result = one.result()
        assert result.ended == "", result.messages[-3:]
        files |= result.files
        messages += result.messages
    return dataclasses.replace(result, files=files, messages=tuple(messages))


def test_nothing_runs(engraved):
    assert sung(engraved) == []
    # Fonts may have something to say: not every script is in them. The backend of SVG names what it cannot make.
    known = ("glyph", "font", "unsupported formats (png)")
    assert [m.text for m in engraved.messages if not any(word in m.text for word in known)] == []


def test_what_is_printable_is_printed_as_typed(books, engraved):
    """Except spaces, where a line may break. If a text is printed as several words, they are in order."""
    without = missing(engraved)
    lacking = []
    for name, (kind, strings, _) in books.items():
        if kind == "snippet":
            continue
        files = [n for n in engraved.files if re.fullmatch(rf"{name}(-\d+)?\.svg", n)]
        printed = "".join(shown(engraved.files[n].decode()) for n in sorted(files, key=_page_number))
        printed = "".join(c for c in printed if c not in without)
        lacking += [
            (kind, field, strings[field][:40])
            for field in PRINTED[kind]
            if wanted(strings[field], without) not in printed
        ]
    assert lacking == []


def test_pictures_and_pdf_are_made_of_all(books, lilypond):
    """The same through the other output formats: nothing runs there either."""
    names = [name for name in books if name.endswith(("4x1", "7x2", "2x2", "9x2"))]
    text = document(tuple(lytext.code(renamed(books[name][2].book, name)) for name in names))
    result = run(lilypond, text, ("pdf", "png", "svg") if lilypond.cairo else ("pdf", "png"))
    assert result.ended == "", result.messages[-3:]
    assert not sung(result)
    assert sum(name.endswith(".pdf") for name in result.files) == len(names)


def test_the_ily_is_safe_in_the_score_of_somebody_else(books, lilypond, tmp_path):
    writer = writers.get("ily")
    (tmp_path / "s").mkdir()
    lines = ['\\version "2.24.0"']
    for name in [name for name, (kind, _, _) in books.items() if kind == "snippet"][::3]:
        item = dataclasses.replace(books[name][2], place=PurePosixPath("s", name))
        for output in writer.outputs((item,), {}):
            path = tmp_path / output.place
            path.write_bytes(output.data)
            if output.place.stem == name:
                lines.append(f'\\include "{path}"\n\\score {{ \\new Staff {{ \\"gesture-{item.name}" }} }}')
    # Read from disk as by a composer's LilyPond: without our folder, outside the sandbox.
    result = run(find(sandbox="never"), "\n".join(lines))
    assert result.ended == "", result.messages[:3]
    assert not sung(result)


MAKERS = ("score", "backends", "sheets", "pipeline", "batch", "writers", "wording", "techniques")


def test_only_one_place_makes_lilypond_text():
    """Only `lytext` escapes or quotes, and no other module creates `LyText` directly."""
    package = Path(lytext.__file__).parent
    read = [path for folder in MAKERS for path in sorted((package / folder).rglob("*.py"))]
    assert all((package / folder).is_dir() for folder in MAKERS)
    assert len(read) > 100
    for path in read:
        text = path.read_text("utf-8")
        assert 'replace("\\\\", "\\\\\\\\")' not in text, path
        assert not re.search(r"(?<!def )\bLyText\((?!\"\"\))", text), path
