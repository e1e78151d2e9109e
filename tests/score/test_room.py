"""In proportional spacing a long gesture in which little happens takes one row, and dense ones keep their room."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from gesturesmith.score.music import USUAL_PLACE
from gesturesmith.sheets import snippet

SLIDE = "  technique: half-valve\n"


@pytest.mark.parametrize(
    ("body", "place"),
    [
        ("  contour: F4\n  lasts: 2 s\n", USUAL_PLACE),
        ("  contour: F4\n  lasts: 10 s\n", Fraction(1, 3)),
        ("  contour: F4\n  lasts: 10 s\n  dynamics: n < ff@1 > n\n", Fraction(1, 5)),
        (SLIDE + "  contour: xG4 ~~ xC5@1 ~~ xE4@9\n  lasts: 10 beats\n", Fraction(1, 5)),
        (SLIDE + "  contour: xG4 ~~ xC5@1/4 ~~ xE4@9\n  lasts: 10 beats\n", USUAL_PLACE),
    ],
)
def test_a_place(body, place, engraved):
    """Seven and a half places per gesture, unless two things would be closer than one and a quarter."""
    assert engraved(f"gesture one\n{body}")["one"].music.place == place


def test_the_layout_says_it_only_where_it_is_another(engraved):
    music = engraved("gesture long\n  contour: F4\n  lasts: 10 s\ngesture short\n  contour: F4\n  lasts: 2 s\n")
    long, short = (str(snippet.book(music[name], music[""], output="x")) for name in ("long", "short"))
    assert r"\gsPlace #1/3" in long
    assert r"\gsPlace" not in short


SIGNS = {"bend": r"\gsBend", "fall": r"\gsFall", "doit": r"\gsDoit"}


@pytest.mark.parametrize("technique", SIGNS)
@pytest.mark.parametrize("lasts", ["2 s", "10 s"])
def test_signs_stand_at_a_head_however_long_it_lasts(technique, lasts, engraved):
    """A long note continues in skips, which have no head to carry a sign."""
    text = engraved(f"gesture one\n  technique: {technique}\n  contour: C5\n  lasts: {lasts}\n")["one"].ly
    head, _, rest = text.partition("s4" if lasts == "10 s" else "\\bar never")
    assert SIGNS[technique] in head
    assert SIGNS[technique] not in rest


def test_a_trill_in_time_has_waves_to_its_end(engraved):
    text = engraved("gesture one\n  technique: valve-trill\n  contour: C5\n  lasts: 10 s\n")["one"].ly
    assert re.findall(r"\\gsTrill\w*|s4", text)[0] == r"\gsTrillSpanTo"
    assert re.findall(r"\\gsTrill\w*|s4", text)[-1] == r"\gsTrillSpanEnd"
