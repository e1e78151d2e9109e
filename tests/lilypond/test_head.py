"""The templates as LilyPond reads them before its document: as text, or compiled once and kept."""

from __future__ import annotations

import re

import pytest

from gesturesmith import paths
from gesturesmith.cache import Store
from gesturesmith.lilypond import Job, LilyPondPool
from gesturesmith.lilypond import head as reading
from gesturesmith.lilypond.head import compiled_key, compiles, has_head, head, headless, ready_head
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source

pytestmark = pytest.mark.lilypond

TEXT = """instrument: horn
pitches: written

gesture a
  technique: half-valve
  band: G4..F5
  contour: xG4 ~~ xD5@2 ~~ xB4@3 ~~ xF5@4
  lasts: 4 beats
  dynamics: p < f@3 > p
"""


def test_every_function_is_compiled_and_nothing_else_is_lost():
    rest, functions = reading._divided()
    whole = reading.inlined(head())
    both = rest + functions
    for name in re.findall(r"^#\(define\*? \(?([^ ()]+)", whole, re.MULTILINE):
        assert re.search(rf"\(define\*? \(?{re.escape(name)}[ )]", both), name
    for name in re.findall(r"^([A-Za-z]+) *=", whole, re.MULTILINE):
        assert re.search(rf"^{name} *=", rest, re.MULTILINE), name
    assert len(functions) > len(rest), "most of the templates are functions"
    assert not re.search(r"^#\(define\*? \(", rest, re.MULTILINE) or "#{" in rest


def test_a_document_without_its_head_keeps_its_lines():
    document = head() + "\\book { }\n"
    assert has_head(document)
    short = headless(document)
    assert short.splitlines().index("\\book { }") == document.splitlines().index("\\book { }")
    assert "include" not in short


@pytest.fixture(scope="module")
def kept(tmp_path_factory, wheel):
    """A store with the compiled stencils."""
    store = Store(tmp_path_factory.mktemp("kept") / "results")
    with LilyPondPool(wheel, keeper=store) as pool:
        pool.compile(at_once=True)
    return store


@pytest.fixture(scope="module")
def book():
    (item,) = compile_text(Source("a.gesture", TEXT), Options(formats=("svg",), only="a")).items
    return item.book


def made(wheel, store, book):
    """The picture of a pool with this store; whether it was made with what is compiled."""
    with LilyPondPool(wheel, keeper=store) as pool:
        run = pool.one(("svg",), Job(document=head() + book))
        assert pool._head is not None
        return re.sub(rb'(id="|#)[^"]*', rb"\1", run.file("s00001", "svg") or b""), bool(pool._head.files)


def read(wheel, store):
    with LilyPondPool(wheel, keeper=store) as pool:
        return pool._ready_head()


def test_compiled_once_the_picture_is_the_same(wheel, kept, book):
    if not compiles(wheel):
        pytest.skip("this LilyPond's Guile compiles too slowly")
    plain, compiled = made(wheel, None, book), made(wheel, kept, book)
    assert (plain[1], compiled[1]) == (False, True)
    assert b"<svg" in plain[0]
    assert plain[0] == compiled[0]


def test_compiled_at_the_second_use(wheel, tmp_path):
    """A cache that is used once is not worth a second's work."""
    if not compiles(wheel):
        pytest.skip("this LilyPond's Guile compiles too slowly")
    store = Store(tmp_path / "results")
    key = compiled_key(wheel)
    sizes = []
    for _ in range(2):
        with LilyPondPool(wheel, keeper=store) as pool:
            pool.compile()
        sizes.append(len(store.get(key)))
    assert sizes[0] < 100 < 100_000 < sizes[1]


@pytest.mark.parametrize("harm", ["bytes", "length", "another's"])
def test_what_is_damaged_or_anothers_is_not_loaded(wheel, kept, tmp_path, harm):
    """LilyPond would run it, or die of it."""
    if not compiles(wheel):
        pytest.skip("this LilyPond's Guile compiles too slowly")
    key = compiled_key(wheel)
    folder = tmp_path / "results"
    store = Store(folder)
    store.put(key, kept.get(key))
    (entry,) = (p for p in folder.rglob("*") if p.name == key)
    data = bytearray(entry.read_bytes())
    if harm == "bytes":
        data[-1000] ^= 1
        entry.write_bytes(data)
    elif harm == "length":
        entry.write_bytes(data[:-1])
    else:
        folder.chmod(0o777)
    assert read(wheel, kept).files
    assert read(wheel, Store(folder)) == ready_head(None)


def test_what_cannot_be_compiled_is_read_as_text(wheel, tmp_path, monkeypatch):
    """And not tried again."""
    if not compiles(wheel):
        pytest.skip("this LilyPond's Guile compiles too slowly")
    store = Store(tmp_path / "results")
    monkeypatch.setattr(reading, "_COMPILE", '#(error "no compiler")\n')
    with LilyPondPool(wheel, keeper=store) as pool:
        pool.compile(at_once=True)
    assert store.get(compiled_key(wheel)) == b""
    assert read(wheel, store) == ready_head(None)


def test_other_templates_have_another_key(wheel, tmp_path, monkeypatch):
    before = compiled_key(wheel)
    for path in paths.templates().rglob("*.ily"):
        other = tmp_path / path.relative_to(paths.templates())
        other.parent.mkdir(exist_ok=True)
        other.write_bytes(path.read_bytes())
    monkeypatch.setattr(paths, "templates", lambda: tmp_path)
    assert compiled_key(wheel) == before
    changed = tmp_path / "stencils" / "base.ily"
    changed.write_text(changed.read_text() + "\n")
    assert compiled_key(wheel) != before
    assert ready_head(None).files == ()
