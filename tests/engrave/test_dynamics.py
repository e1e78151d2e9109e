"""Levels and hairpins at their own times."""

from __future__ import annotations

import re


def dynamics_of(engraved, dynamics: str, contour: str = "C5", lasts: int = 4) -> str:
    return engraved(f"gesture one\n  contour: {contour}\n  lasts: {lasts} beats\n  dynamics: {dynamics}\n")[
        "one"
    ].ly


def compact(ly: str) -> str:
    return re.sub(r"\s+", " ", ly)


def test_at_the_notes(engraved):
    ly = compact(dynamics_of(engraved, "p < f@2", "C5, D5@2"))
    assert r"c''2 \p \< d''2 \f" in ly


def test_at_the_very_end_after_the_note(engraved):
    ly = compact(dynamics_of(engraved, "p < f"))
    assert r"\afterGrace 63/64 c''1 \p \< { s8 \f }" in ly


def test_inside_a_note_on_a_track_of_skips(engraved):
    ly = compact(dynamics_of(engraved, "p < f@3/2 > p@3"))
    assert r"{ c''1 } { s4 * 3/2 \p \< s4 * 3/2 \f \> s4 \p }" in ly


def test_from_and_to_nothing(engraved):
    ly = compact(dynamics_of(engraved, "n < f@2 > n", "C5, D5@2"))
    assert r"\gsNiente c''2 \<" in ly
    assert r"\gsNiente \afterGrace 63/64 d''2 \f \> { s8 \! }" in ly


def test_nothing_alone_is_written_out(engraved):
    assert r'\gsLevel "n"' in dynamics_of(engraved, "n")


def test_two_levels_close_together_keep_apart(engraved):
    text = (
        "gesture a\n  contour: C5\n  lasts: 4 beats\n  dynamics: f > p\ngesture b\n  contour: C5\n  dynamics: pp\n"
    )
    assert r"\gsEndLevel" in engraved(text + "passage one\n  play: a, b\n")["one"].ly
    assert r"\gsEndLevel" not in engraved(text + "passage one\n  play: a, rest 1, b\n")["one"].ly


def test_one_level_where_both_would_say_the_same(engraved):
    """The hairpin goes on to the next note; after a rest, or at a head where a line stops, each has its own."""
    loud = "  lasts: 4 beats\n  dynamics: p < f\ngesture b\n  contour: C5\n  dynamics: f\n"
    text = f"gesture a\n  contour: C5\n{loud}"
    assert compact(engraved(f"{text}passage one\n  play: a, b\n")["one"].ly).count(r"\f ") == 1
    assert compact(engraved(f"{text}passage one\n  play: a, rest 1, b\n")["one"].ly).count(r"\f ") == 2
    text = f"gesture a\n  technique: half-valve\n  contour: xC5 ~~ xG4\n{loud}"
    assert compact(engraved(f"{text}passage one\n  play: a, b\n")["one"].ly).count(r"\f ") == 2
