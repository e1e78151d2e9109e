"""The looks of techniques: no two alike, only real names from standards, a reason for each."""

from __future__ import annotations

import csv
import re
from dataclasses import asdict
from itertools import combinations
from pathlib import Path

import pytest

from gesturesmith import paths, techniques, wording
from gesturesmith.backends.lilypond import marks
from gesturesmith.techniques.base import LOOKS, Look, Technique

REFERENCE = Path(__file__).parent.parent / "reference"
TECHNIQUES = [techniques.get(name) for name in techniques.names()]
GLYPH = re.compile(r"\b(?:accidental|brass|double|notehead|ornament|triple|wiggle|wind)[A-Z]\w+|\btremolo\d")


def column(file: str, name: str) -> set[str]:
    """One column of a table in tests/reference, without comment lines."""
    lines = [line for line in (REFERENCE / file).read_text("utf-8").splitlines() if not line.startswith("#")]
    return {row[name] for row in csv.DictReader(lines)}


def on_the_page(look: Look) -> tuple[object, ...]:
    """The part of a look visible where it begins: everything but the reason and later text."""
    hidden = {"reason", "cancel", "cancel_script", "sign", "announce", "partials"}
    return tuple(value for name, value in sorted(asdict(look).items()) if name not in hidden)


def test_no_two_techniques_look_the_same() -> None:
    for one, other in combinations(TECHNIQUES, 2):
        if other.key == one.in_hand or one.key == other.in_hand:
            continue  # one sign, whether a hand in the bell or something before it closes it
        assert on_the_page(one.look) != on_the_page(other.look), f"{one.key} and {other.key} look the same"


def test_no_word_or_script_is_shared() -> None:
    """A player reads only the word or sign; trill signs are distinguished by their words."""
    words = [t.look.word for t in TECHNIQUES if t.look.word]
    scripts = [t.look.script for t in TECHNIQUES if t.look.script and not t.in_hand]
    edges = [t.look.edge for t in TECHNIQUES if t.look.edge]
    for shown in (words, scripts, edges):
        assert len(set(shown)) == len(shown), sorted(shown)


@pytest.mark.parametrize("field", LOOKS)
def test_a_look_of_an_unknown_name_is_no_look(field: str) -> None:
    with pytest.raises(ValueError, match=field):
        Look(**{field: "swoosh"})


def test_engraving_has_a_sign_for_every_name() -> None:
    assert {*LOOKS["script"], *LOOKS["cancel_script"]} <= {"", *marks._SCRIPTS}
    edges = (paths.templates() / "stencils" / "edges.ily").read_text("utf-8")
    assert all(
        f"gs{''.join(word.capitalize() for word in str(edge).split('-'))} = " in edges
        for edge in LOOKS["edge"]
        if edge
    )
    assert {*LOOKS["head"], *LOOKS["sung_head"]} <= {"", "auto", "normal", "triangle", *marks._SHAPES}


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda t: t.key)
def test_a_look_gives_its_reason(technique: Technique) -> None:
    reason = technique.look.reason
    assert len(reason) > 40
    assert reason.endswith(".")
    assert set(GLYPH.findall(reason)) <= column("smufl_names.csv", "name"), GLYPH.findall(reason)


def test_glyph_names_are_read_at_all() -> None:
    """The pattern finds what it should, and would reveal an error."""
    assert GLYPH.findall("as brassScoop, tremolo3 and brassNoSuchThing do") == [
        "brassScoop",
        "tremolo3",
        "brassNoSuchThing",
    ]
    assert "brassNoSuchThing" not in column("smufl_names.csv", "name")


def test_what_begins_is_cancelled() -> None:
    """A continuing technique has a word or sign that ends it, or a line with a hook."""
    lasting = [
        t
        for t in TECHNIQUES
        if t.layer in ("bell", "tone", "tongue", "voice", "lip", "valves", "attack") and t.look.word
    ]
    for technique in lasting:
        ends = technique.look.cancel or technique.look.extent == "span" or technique.look.trill
        assert ends or technique.key == "single-tongue", technique.key  # single tonguing is the ordinary way


def test_a_mute_is_announced_by_name() -> None:
    muted = techniques.get("muted").look
    assert muted.announce
    for language in wording.languages():
        said = muted.word.replace("{mute}", wording.text("mute-straight", language))
        assert re.fullmatch(r"con sord\. \(\S.*\S\)", said)
    assert muted.cancel == "senza sord."


def test_only_what_has_no_pitch_is_always_crossed() -> None:
    """A technique decides on x-heads only where there is no pitch; elsewhere the composer's x does."""
    assert {t.key for t in TECHNIQUES if t.look.head == "x"} == {t.key for t in TECHNIQUES if t.pitched == "none"}


def test_nothing_but_the_contour_is_wavy() -> None:
    """No look has a field that could draw a wave."""
    assert not [name for name in asdict(Look()) if "wav" in name or "line_style" in name]
    assert not [t.key for t in TECHNIQUES if "~" in t.look.word + t.look.sign + t.look.line_word]
