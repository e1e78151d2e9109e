"""The canonical form."""

import pytest
from lang.reading import read

from gesturesmith.lang import format_text
from gesturesmith.source import Source


def formatted(text):
    return format_text(Source("test.gesture", text))


@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("contour : G♯4 —  B♭4,C𝄲5", "contour: G#4 -- Bb4, C^5"),
        ("contour: G↑4, A♭↓4", "contour: G/4, Ab\\4"),
        ("contour: C4~~growing   E4@2 accent->F4", "contour: C4 ~~ growing E4@2 accent -> F4"),
        ("contour: C4 accent @2..F♮4", "contour: C4 accent @2 .. F4"),
        ("contour: low @ 2".replace("@ 2", "@2") + ", 35% @3", "contour: low@2, 35%@3"),
        ("band: G4 .. F5", "band: G4..F5"),
        ("lasts: 4beats", "lasts: 4 beats"),
        ("dynamics: p<f @3>p", "dynamics: p < f@3 > p"),
        ("technique: bend+stopped", "technique: bend + stopped"),
        ("fingering: F1–2,Bb0", "fingering: F 1-2, Bb 0"),
        ("text: „so“", 'text: "so"'),
        ('text: “say "so" \\\\ so”', 'text: "say \\"so\\" \\\\ so"'),
        ("text:\u00a0«so»", 'text: "so"'),
        ('allow:a-rule  "why"', 'allow: a-rule "why"'),
    ],
)
def test_a_line_of_a_gesture(written, canonical):
    assert formatted(f"gesture a\n    {written}\n") == f"gesture a\n  {canonical}\n"


@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("paper: 210x297mm", "paper: 210 x 297 mm"),
        ("paper: A4", "paper: a4"),
        ('tempo: "Slow"72', 'tempo: "Slow" 72'),
        ("wording:en,de", "wording: en, de"),
        ("meter: 4/4", "meter: 4/4"),
    ],
)
def test_a_setting(written, canonical):
    assert formatted(written) == f"{canonical}\n"


def test_blocks_stand_apart_and_comments_stay_with_what_they_are_about():
    text = (
        "\ufeff# The piece\r\ninstrument: horn\t# ours\r\n\r\n\r\ntempo: 72\r\n# about a\r\ngesture a\r\n\r\n"
        "\tcontour: C4 --   # up\r\n\t\t\t# and on\r\n\t\t\tD4\r\n\r\n\t# the length\r\n\tlasts: 2 beats\r\n"
        "# about b\r\ngesture b “B”\r\n\tcontour:\r\n\t\tE4\r\ntempo: 60".replace("tempo: 60", "title: “T”")
    )
    assert formatted(text) == (
        "# The piece\ninstrument: horn  # ours\n\ntempo: 72\n\n# about a\ngesture a\n"
        "  contour: C4 --  # up\n    # and on\n    D4\n\n  # the length\n  lasts: 2 beats\n\n"
        '# about b\ngesture b "B"\n  contour:\n    E4\n\ntitle: "T"\n'
    )


def test_the_order_of_keys_is_the_composer_s():
    text = "gesture a\n  lasts: 1 beat\n  contour: C4\n"
    assert formatted(text) == text


def test_a_file_that_cannot_be_read_comes_back_as_it_is():
    text = "gesture a\n\tcontour:   c4\n"
    assert read(text)[1]
    assert formatted(text) == text


def test_an_empty_file_stays_empty():
    assert formatted("") == ""
    assert formatted("\n\n") == ""
