"""The gallery shows every technique, its index is up to date, and LilyPond engraves all of it without a message."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from importlib import util
from pathlib import Path
from types import ModuleType

import pytest
import timing
from golden.programs import PROGRAMS
from sampling import SOAK, WHOLE, sample

from gesturesmith import paths, techniques
from gesturesmith.lilypond import LilyPond, find

DOCS = Path(__file__).parent.parent.parent / "docs"
OTHERS = ("euphonium", "natural-horn", "trombone", "trumpet", "tuba")
LEFT_OUT = ("horn.gesture", "euphonium.gesture", "trumpet.gesture")
MOST_BYTES = 4_000_000  # maximum size of the pictures in a clone


@pytest.fixture(scope="module")
def gallery() -> Iterator[ModuleType]:
    spec = util.spec_from_file_location("docs_gallery", DOCS / "gallery.py")
    assert spec is not None
    assert spec.loader is not None
    module = util.module_from_spec(spec)
    monkey = pytest.MonkeyPatch()
    monkey.setitem(sys.modules, spec.name, module)  # dataclasses look up their module there
    spec.loader.exec_module(module)
    yield module
    monkey.undo()


@pytest.fixture(scope="module")
def pictures(gallery):
    return gallery.pictures()


@pytest.fixture(scope="module")
def document(gallery, pictures) -> str:
    return str(gallery.documents(pictures))


def _names(pictures, file: str) -> list[str]:
    return [entry.name for picture in pictures if picture.file == f"{file}.gesture" for entry in picture.entries]


def test_the_horn_plays_every_technique_in_three_registers_short_and_long(pictures):
    wanted = [
        f"{technique}-{register}-{length}"
        for technique in techniques.names()
        for register in ("low", "middle", "high")
        for length in ("short", "long")
    ]
    assert sorted(_names(pictures, "horn")) == sorted(wanted)


@pytest.mark.parametrize("instrument", OTHERS)
def test_the_other_instruments_play_every_technique_once(pictures, instrument):
    assert sorted(_names(pictures, instrument)) == sorted(techniques.names())


def test_a_gesture_uses_the_technique_it_is_named_after(pictures):
    """`flutter-tongue-low-long` flutters, whatever else it does."""
    for picture in pictures:
        for entry in picture.entries:
            named = re.sub(r"-(low|middle|high)-(short|long)$", "", entry.name)
            if picture.file.removesuffix(".gesture") in ("horn", *OTHERS) and named != "ordinary":
                assert named in entry.techniques, entry.name


def test_the_index_is_up_to_date(gallery, pictures):
    assert (gallery.FOLDER / gallery.INDEX).read_text("utf-8") == gallery.index(pictures), "run: make gallery"


def test_an_index_without_a_picture_is_found(gallery, pictures):
    assert gallery.index(pictures) != gallery.index(pictures[1:])


def test_every_picture_of_the_index_is_there_and_no_other(gallery, pictures):
    files = {path.name: path.stat().st_size for path in gallery.FOLDER.glob("*.png")}
    shown = re.findall(r"\]\((.+\.png)\)", gallery.index(pictures))
    assert sorted(files) == sorted(shown)
    assert sum(files.values()) < MOST_BYTES


def test_what_is_refused_is_listed_with_its_reason(gallery, pictures):
    index = gallery.index(pictures)
    refused = [entry for picture in pictures for entry in picture.entries if entry.refused]
    assert refused
    for entry in refused:
        assert f"- not as written: {entry.label}: {entry.reason}\n" in index


def test_the_same_text_every_time(gallery, pictures):
    assert gallery.documents(gallery.pictures()[-2:]) == gallery.documents(pictures[-2:])


@pytest.mark.lilypond
@pytest.mark.parametrize("program", sample(PROGRAMS, 2), ids=PROGRAMS.index)
def test_the_whole_gallery_is_quiet(gallery, pictures, document, program, tmp_path):
    """Everything is laid out and drawn, but no files are written. In `make test` and by a second LilyPond every
    technique is, and only `make soak` has that draw them in each register of the horn and on every instrument."""
    if not WHOLE or (program != PROGRAMS[0] and not SOAK):
        some = tuple(p for p in pictures if p.file not in LEFT_OUT)
        assert {key for p in some for e in p.shown for key in e.techniques} >= {*techniques.names()} - {"ordinary"}
        document = str(gallery.documents(some))
    (tmp_path / "gallery.ly").write_text(document.replace("\\gsCropped\n", ""), "utf-8")
    command = [str(program), "-dno-print-pages", "--loglevel=WARNING", "-I", str(paths.templates()), "gallery.ly"]
    done = timing.run(command, cwd=tmp_path, text=True, seconds=300)
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.lilypond
def test_the_same_bytes_every_time(gallery, pictures):
    found = find()
    assert isinstance(found, LilyPond)
    some = tuple(p for p in pictures if p.name == "horn-bend")
    one, other = (gallery.make(some, found) for _ in range(2))
    assert sorted(one.files) == sorted(f"{p.name}.cropped.png" for p in some)
    assert one.files == other.files
