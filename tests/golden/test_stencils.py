# ruff: noqa: E501  (a case a line)
"""A reader must see one line that passes through its points at their time and height, even in its waves, and stops
short of everything that is printed. Measured in LilyPond's own SVG, in staff spaces.

Heights are held against arithmetic: a step of a written pitch is half a staff space, B4 the middle line of the
treble clef (D3 that of the bass clef).
"""

from __future__ import annotations

import itertools
import subprocess

import pytest
from golden.geometry import compile_svg, misses, off_points

from gesturesmith.lilypond import find
from gesturesmith.writers._inline import template

pytestmark = pytest.mark.lilypond

# name, music, style wavy?, staff positions of the points (0 the middle line), accidentals of the line's points
CASES = [
    ("rising", r"\gsX g'4\gsLine #'((style . wavy)) \gsStemless \gsX d''4 \gsStemless \gsX f''4 \gsX a''4\gsLineEnd", True, [-2, 2, 4, 6]),
    ("falling", r"\gsX a''4\gsLine #'((style . wavy)) \gsStemless \gsX e''4 \gsX d'4\gsLineEnd", True, [6, 3, -5]),
    ("turning", r"\gsX g'4\gsLine #'((style . wavy)) \gsX d''4 \gsX b'4 \gsX f''4\gsLineEnd", True, [-2, 2, 0, 4]),
    ("leap", r"\gsX c'4\gsLine #'((style . wavy)) \gsX c'''4\gsLineEnd", True, [-6, 8]),
    ("ledger lines", r"\gsX g4\gsLine #'((style . wavy)) \gsX c'4 \gsX a4\gsLineEnd", True, [-9, -6, -8]),
    ("accidentals", r"\gsX gf'4\gsLine #'((style . wavy)) \gsStemless fs''4 \gsStemless \gsX bqf'4 cs''4\gsLineEnd", True, [-2, 4, 0, 1]),
    ("growing", r"\gsX g'4\gsLine #'((style . wavy) (growth . growing)) s2 \gsX d''4\gsLineEnd", True, [-2, 2]),
    ("stops", r"\gsX g'2\gsLine #'((style . wavy)) \gsStemless \gsX d''4 \gsStemless \gsX \afterGrace 63/64 b'4 { \gsStops \gsX f''8\gsLineEnd }", True, [-2, 2, 0, 4]),
    ("straight", r"g'4\gsLine #'((style . plain)) \gsStemless d''4 b'4 f''4\gsLineEnd", False, [-2, 2, 0, 4]),
    ("transposed", r"\transpose c d { \gsX g'4\gsLine #'((style . wavy)) \gsX d''4 \gsX b'4\gsLineEnd }", True, [-1, 3, 1]),
    ("bass clef", r"\clef bass \gsX d4\gsLine #'((style . wavy)) \gsX a4 \gsX b,4\gsLineEnd", True, [0, 4, -2]),
    ("heights", r"\gsHeight #-4 \gsX c''4\gsLine #'((style . wavy)) \gsHeight #0 \gsX c''4 \gsHeight #5/2 \gsX c''4\gsLineEnd", True, [-4, 0, 2.5]),
]  # fmt: skip  # one row a case


UNCUT = "\\layout { \\context { \\Voice \\override GestureContour.details.uncut = ##t } }\n"


def _compiled(tmp_path_factory, extra=""):
    found = compile_svg([music for _, music, _, _ in CASES], tmp_path_factory.mktemp("cases"), extra)
    return {name: picture for (name, *_), picture in zip(CASES, found, strict=True)}


@pytest.fixture(scope="module")
def pictures(tmp_path_factory):
    """As printed."""
    return _compiled(tmp_path_factory)


@pytest.fixture(scope="module")
def uncut(tmp_path_factory):
    """The same lines, drawn through heads and all."""
    return _compiled(tmp_path_factory, UNCUT)


@pytest.mark.parametrize(("name", "positions"), [(c[0], c[3]) for c in CASES])
def test_points_are_heads_at_their_heights(pictures, name, positions):
    assert [p.y * 2 for p in pictures[name].points] == pytest.approx(positions, abs=0.01)


@pytest.mark.parametrize(("name", "wavy"), [(c[0], c[2]) for c in CASES])
def test_the_line_goes_through_its_points(uncut, name, wavy):
    assert off_points(uncut[name], wavy=wavy) == []


@pytest.mark.parametrize("name", [c[0] for c in CASES])
def test_the_line_stops_short_of_heads_and_accidentals(pictures, name):
    assert len(pictures[name].stretches) >= len(pictures[name].points) - 1
    assert misses(pictures[name]) == []


@pytest.mark.parametrize("name", [c[0] for c in CASES if c[2]])
def test_waves_are_whole_and_even(pictures, name):
    """Four nodes a wave, from the middle back to the middle; neighbouring waves are of one length."""
    for stretch in pictures[name].stretches:
        assert (len(stretch.nodes) - 1) % 4 == 0
        middle = stretch.middle(True)
        lengths = [((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in itertools.pairwise(middle)]
        assert max(lengths) - min(lengths) < 0.12, lengths
        if len(middle) > 3:  # a single wave has to fit what room there is
            assert 0.35 < sum(lengths) / len(lengths) < 0.8


BROKEN = {
    "off its points": (
        "gs:wave-nodes",
        "(lambda (path s0 s1 a w) (let ((r (old path s0 s1 a w))) (cons (car r) "
        "(map (lambda (n) (cons (cons (caar n) (+ 0.4 (cdar n))) (cdr n))) (cdr r)))))",
    ),
    "through the heads": ("gs:obstacles", "(lambda (grob system unit swing) '())"),
    "at the wrong time": (
        "gs:places",
        "(lambda a (map (lambda (p) (cons (+ 1.5 (car p)) (cdr p))) (apply old a)))",
    ),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_stencil_is_found(name, tmp_path):
    function, replacement = BROKEN[name]
    broken = f"#(set! {function} (let ((old {function})) {replacement}))\n"
    cut, through = tmp_path / "cut", tmp_path / "through"
    cut.mkdir()
    through.mkdir()
    (printed,) = compile_svg([CASES[2][1]], cut, broken)
    (whole,) = compile_svg([CASES[2][1]], through, broken + UNCUT)
    assert misses(printed) + off_points(whole, wavy=True) != []


COMPOSER = r"""\version "2.24.0"
\language "deutsch"
\include "gesture.ily"
\include "gesture.ily"
#(set-global-staff-size 14)
\paper { tagline = ##f }
\score {
  << \new Staff { h'4 \transpose c d { \"gesture-beacon2" } b'4 }
     \new Staff { \clef bass c8 d e f g a h c' \clef treble \"gesture-beacon2" } >>
  \layout { } \midi { }
}
"""


def test_in_a_score_of_somebody_else(tmp_path):
    """Another note-name language, two inclusions, a transposition, another staff size: no warning."""
    (tmp_path / "gesturesmith.ily").write_text(template("gesturesmith.ily"), "utf-8")
    (tmp_path / "gesture.ily").write_text(
        '\\include "gesturesmith.ily"\n\\gsKeepNoteNames\n\\language "english"\n'
        "\"gesture-beacon2\" = { \\gsX bqf'4\\gsBand g' f''\\gsLine #'((style . wavy)) s2 "
        "\\afterGrace 63/64 s4\\gsBandEnd { \\gsStops \\gsX f''8\\gsLineEnd } }\n\\gsRestoreNoteNames\n",
        "utf-8",
    )
    (tmp_path / "composer.ly").write_text(COMPOSER, "utf-8")
    done = subprocess.run(
        [str(find(None).path), "-s", "composer.ly"], cwd=tmp_path, capture_output=True, text=True, timeout=60
    )
    assert done.returncode == 0, done.stderr
    assert done.stderr.strip() == ""
