"""Grace notes on the page: slashed before their note, plain at the end, under slurs and on lines."""

from __future__ import annotations

import re


def made(engraved, contour: str, *more: str) -> str:
    lines = "".join(f"  {line}\n" for line in (f"contour: {contour}", *more))
    return " ".join(engraved(f"gesture one\n{lines}")["one"].ly.split())


# Gould, Behind Bars (2011), Grace notes: one has a flag with a stroke, several a beam that is struck through.
def test_one_has_a_flag_and_several_a_beam(engraved) -> None:
    assert r"\slashedGrace { g'8 } c''4" in made(engraved, "G4 grace, C5")
    assert r"\grace { \gsGraceSlash g'16 [ a'16 ] } c''4" in made(engraved, "G4 grace, A4 grace, C5")


def test_those_at_the_end_are_not_slashed(engraved) -> None:
    ly = made(engraved, "C5, B4 grace, C5 grace")
    assert r"\afterGrace 7/8 c''4 { b'16 [ c''16 ] }" in ly
    assert "lash" not in ly


def test_a_level_at_the_end_leaves_them_in_place(engraved) -> None:
    """A leaf has one place after it: that of the level came instead of the notes."""
    ly = made(engraved, "C5, B4 grace, C5 grace", "dynamics: p < f")
    assert re.search(r"\\afterGrace 7/8 c''4 .*\{ b'16 \[ c''16 \] \\gsLevelAtEnd s8 \\f \}", ly)


def test_a_slur_is_one_slur_whatever_it_reaches(engraved) -> None:
    assert r"\slashedGrace { g'8 ( } c''4 )" in made(engraved, "G4 grace __ C5")
    ly = made(engraved, "G4 grace __ C5 __ D5")
    assert re.sub(r"[^()]", "", ly) == "()"
    assert ly.index("(") < ly.index("c''") < ly.index(")")
    ly = made(engraved, "C5 __ A4 grace __ D5 __ C5 grace")
    assert re.sub(r"[^()]", "", ly) == "()"
    assert ly.rindex(")") > ly.rindex("c''8")


def test_a_line_leads_from_one(engraved) -> None:
    ly = made(engraved, "xG4 grace ~~ xC5 ~~ xG5", "technique: half-valve")
    assert ly.count(r"\gsLine ") == 2
    assert ly.count(r"\gsLineEnd") == 2


def test_its_signs_and_head_are_its_own(engraved) -> None:
    ly = made(engraved, "xG4 grace accent, C5 staccato")
    assert r"\slashedGrace { \gsX g'8 - \accent } c''4 - \staccato" in ly


def test_without_bars_an_accidental_of_a_grace_is_taken_back(engraved) -> None:
    assert "f'!4" in made(engraved, "F#4 grace, F4")


def test_repeated_attacks_have_them_once(engraved) -> None:
    assert made(engraved, "G4 grace, C5", "attacks: 4 accelerating").count("slashedGrace") == 1


def test_a_quarter_tone_shows_its_fingering(engraved) -> None:
    grace, _ = made(engraved, "F^4 grace __ G4", "technique: quarter-tones").split("}")[:2]
    assert r"\gsFingering" in grace
    assert r"\gsFingering" not in made(engraved, "F4 grace __ G4").split("}")[0]
