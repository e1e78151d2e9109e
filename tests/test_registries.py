"""Registries are complete, with no more and no less than the language defines."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest
import timing

from gesturesmith import instruments, paths, registry, rules, techniques, wording
from gesturesmith.techniques.base import Technique

# The table of techniques of the language, version 1.
TABLE = {
    "none": "ordinary",
    "motion": "bend lip-gliss hand-gliss hand-out harmonic-gliss fingered-gliss slide-gliss chromatic "
    "oscillating-gliss interrupted-gliss against-the-grain trigger-gliss",
    "edge-in": "scoop plop rip lift smear",
    "edge-off": "doit short-doit long-doit doit-at-once fall short-fall long-fall fall-at-once spill flip "
    "jazz-turn",
    "valves": "half-valve quarter-tones valve-trill timbre-trill tremolo valve-clicks false-fingering "
    "half-valve-notes valve-slide-tremolo",
    "bell": "stopped half-stopped muted bells-up",
    "cover": "closed half-closed wah-wah",
    "stem": "stem-in stem-half-out stem-out",
    "tone": "air air-tone brassy mouthpiece-alone without-mouthpiece reversed-mouthpiece lip-buzz ghost",
    "tongue": "flutter-tongue",
    "voice": "growl multiphonic",
    "lip": "vibrato lip-trill shake split-tone factitious pedal",
    "attack": "single-tongue double-tongue triple-tongue split-attack slap-tongue kiss mouthpiece-pop bell-tap",
}
LAYER_OF = {key: layer for layer, keys in TABLE.items() for key in keys.split()}


def test_the_techniques_are_those_of_the_language() -> None:
    assert set(techniques.names()) == set(LAYER_OF)
    assert len(techniques.names()) == 73


@pytest.mark.parametrize("key", techniques.names())
def test_a_technique_is_found_by_its_key_and_on_its_layer(key: str) -> None:
    technique = techniques.get(key)
    assert technique.key == key
    assert technique.layer == LAYER_OF[key]


def test_every_layer_word_is_known_to_the_language() -> None:
    """There are no names beyond those in the table; a note, height or register is not a technique."""
    taken = {"low", "mid", "high", "middle", "top", "highest", "lowest", "r", "rest", "up", "down", "for", "as"}
    assert not taken & set(techniques.names())


@pytest.mark.parametrize("find", [techniques.get, instruments.get, lambda n: wording.text("draft", n)])
def test_an_unknown_name_is_a_key_error(find: object) -> None:
    with pytest.raises(KeyError):
        find("no-such-thing")  # type: ignore[operator]


def test_a_name_is_no_path_out_of_its_package() -> None:
    for name in ("base", "../evidence", "os", "__init__", "harmonic_gliss.py", "", "Half-Valve"):
        with pytest.raises(KeyError):
            techniques.get(name)


def test_listing_imports_nothing() -> None:
    """Names come from the files alone, and one technique imports only what it needs."""
    program = (
        "import sys\n"
        "from gesturesmith import techniques\n"
        "techniques.names()\n"
        "mine = lambda: {m for m in sys.modules if m.startswith('gesturesmith')}\n"
        "before = mine()\n"
        "assert not {m for m in before if m.count('.') > 1} - {'gesturesmith.techniques.base'}, before\n"
        "techniques.get('half-valve')\n"
        "assert mine() - before == {'gesturesmith.techniques.half_valve'}, mine() - before\n"
    )
    done = timing.run([sys.executable, "-c", program], text=True)
    assert done.returncode == 0, done.stderr


def test_a_file_that_cannot_be_imported_stops_the_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "shelf_of_broken_things"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "broken_one.py").write_text("import nothing_of_this_name\n")
    monkeypatch.syspath_prepend(str(tmp_path))
    assert registry.names("shelf_of_broken_things") == ("broken-one",)
    with pytest.raises(ModuleNotFoundError):
        registry.module("shelf_of_broken_things", "broken-one")


def test_a_new_kind_of_page_is_found(tmp_path: Path) -> None:
    """Its module and its page settings, in a copy of the program with nothing else changed."""
    for folder in ("gesturesmith", "templates"):
        shutil.copytree(
            paths.templates().parent / folder, tmp_path / folder, ignore=shutil.ignore_patterns("*.pyc")
        )
    (tmp_path / "templates/poster.ily").write_text('\\version "2.24.0"\n')
    (tmp_path / "gesturesmith/sheets/poster.py").write_text("BOOK = 'a poster'\n")
    program = (
        "from gesturesmith.lytext import code\n"
        "from gesturesmith.sheets import document, poster\n"
        "print(document((code(poster.BOOK),)))\n"
    )
    done = timing.run([sys.executable, "-c", program], text=True, cwd=tmp_path, env={"PYTHONPATH": str(tmp_path)})
    assert done.returncode == 0, done.stderr
    assert '\\include "poster.ily"\n' in done.stdout
    assert done.stdout.endswith("a poster\n")


def test_no_kind_of_page_costs_time_unless_it_is_made() -> None:
    program = (
        "import sys\n"
        "from gesturesmith.sheets import snippet\n"
        "mine = {m for m in sys.modules if m.startswith('gesturesmith.sheets.')}\n"
        "helpers = {'gesturesmith.sheets._score', 'gesturesmith.sheets._tempo', 'gesturesmith.sheets._timeline'}\n"
        "assert mine == {'gesturesmith.sheets.snippet', *helpers}, mine\n"
    )
    done = timing.run([sys.executable, "-c", program], text=True)
    assert done.returncode == 0, done.stderr


def test_every_instrument_is_found_by_its_key() -> None:
    assert "horn" in instruments.names()
    for name in instruments.names():
        assert instruments.get(name).key == name


def test_every_rule_can_be_imported_and_codes_are_not_shared() -> None:
    found = rules.all_rules()
    assert {r.name for r in found} == set(rules.names())
    assert len({r.code for r in found}) == len(found)


def test_registers_in_limits_are_registers_of_an_instrument() -> None:
    known = {r.name for name in instruments.names() for r in instruments.get(name).registers}
    for key in techniques.names():
        limit = techniques.get(key).limits.get("registers")
        if limit is not None:
            assert set(limit.narrow.value) < known, key


def test_rates_are_limits_of_an_instrument() -> None:
    """A technique that names a rate finds it for every register of the horn."""
    horn = instruments.get("horn")
    for key in techniques.names():
        rate = techniques.get(key).rate
        for register in horn.registers if rate else ():
            assert f"{rate}_per_s_{register.name}" in horn.limits, f"{key}: {rate} in {register.name}"


def all_techniques() -> list[Technique]:
    return [techniques.get(name) for name in techniques.names()]


def test_needs_are_what_instruments_have() -> None:
    assert {t.needs for t in all_techniques()} == {"", "hand", "valves", "slide", "trigger", "valve-slide"}
