"""Repeated notes on the page: strokes at every head, and words where nobody counts."""

from __future__ import annotations


def made(engraved, contour: str, *more: str) -> str:
    lines = "".join(f"  {line}\n" for line in (f"contour: {contour}", *more))
    return " ".join(engraved(f"gesture one\n{lines}")["one"].ly.split())


def test_each_value_has_its_strokes(engraved) -> None:
    ly = made(engraved, "C5 eighths, D5 sixteenths, E5 thirty-seconds, F5", "technique: double-tongue")
    assert [w for w in ly.split() if w.startswith("#") and w[1:].isdigit() and w != "#2"] == ["#8", "#16", "#32"]
    assert "possible" not in ly


def test_a_note_that_is_tied_has_them_at_every_head(engraved) -> None:
    assert made(engraved, "C5 eighths", "lasts: 5 beats").count("gsStrokes") == 2


def test_strokes_in_a_triplet_count_in_its_values(engraved) -> None:
    """Common practice: a tremolo of so many strokes divides the printed value, in a tuplet as outside."""
    made = engraved("passage p\n  play: C5 for 2/3 sixteenths, D5 for 1/3, E5 for 1/3 sixteenths, F5 for 2/3\n")[
        "p"
    ]
    ly = " ".join(made.ly.split())
    assert ly.count("\\tuplet 3/2") == 2
    first = ly[ly.index("c''") : ly.index("d''")]
    assert first.startswith("c''4")
    assert "\\gsStrokes #16" in first
    second = ly[ly.index("e''") : ly.index("f''")]
    assert second.startswith("e''8")
    assert "\\gsStrokes #16" in second


def test_words_say_what_is_not_measured(engraved) -> None:
    ly = made(engraved, "C5 unmeasured, D5 unmeasured, r, E5 thirty-seconds", "technique: double-tongue")
    assert ly.count('"as fast as possible"') == 1
    assert ly.index("possible") < ly.index("d''") < ly.index('"measured"')


def test_a_passage_says_where_it_is_measured_again(engraved) -> None:
    text = "gesture a\n  contour: C5 unmeasured\ngesture b\n  contour: C5 sixteenths\n"
    ly = engraved(f"{text}passage p\n  play: b, a, b, b\n")["p"].ly
    assert [w for w in ("as fast as possible", "measured") if f'"{w}"' in ly] == ["as fast as possible", "measured"]
    assert ly.count('"measured"') == 1


def test_an_accent_at_each_attack(engraved) -> None:
    assert made(engraved, "G4, A4, Bb4, C5", "dynamics: fp each").count(r"\fp") == 4
