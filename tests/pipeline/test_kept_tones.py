"""Tones are cached with the music: equal after writing and reading."""

from __future__ import annotations

from pathlib import Path

import pytest
from sampling import sample
from tones.performed import performances

from gesturesmith.cache import Store
from gesturesmith.checker import check_text
from gesturesmith.lang import parse
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.gesture_cache import _FORM, GestureCache
from gesturesmith.source import Source
from gesturesmith.tones import Performance

ROOT = Path(__file__).parents[2]
FILES = [*sorted((ROOT / "docs/demo").glob("*.gesture")), *sorted((ROOT / "docs/gallery").glob("*.gesture"))]


def heard(path: Path) -> dict[str, Performance]:
    source = Source(path.name, path.read_text("utf-8"))
    return performances(check_text(source, folder=path.parent, suggestions=False))


@pytest.mark.parametrize("path", sample(FILES, 4), ids=lambda p: p.stem)
def test_what_is_heard_comes_back_as_it_was(path):
    made = heard(path)
    assert made
    for one in made.values():
        assert _FORM.loads(_FORM.dumps(one)) == one


@pytest.mark.parametrize(
    "wrong", [b'["Wave","wobble",5.0,["()"]]', b'["Wave","trill","5",["()"]]', b'["Fermata",["/",1,1],null]']
)
def test_what_somebody_else_wrote_is_no_tone(wrong):
    with pytest.raises(ValueError, match="cannot be"):
        _FORM.loads(wrong)


def test_music_that_was_kept_is_heard_as_it_was(tmp_path):
    path = ROOT / "docs/demo/fog-signals.gesture"
    source, options, store = Source(path.name, path.read_text("utf-8")), Options(), Store(tmp_path)
    compile_text(source, options, store)
    shelf = GestureCache(store, source, parse(source)[0], options)
    for name, made in heard(path).items():
        kept = shelf.engraving(name)
        assert kept is not None
        assert kept.music.performance == made
