"""Which cues a part has: before an entry after a long rest, from the part that leads up to it."""

from __future__ import annotations

from fractions import Fraction

import pytest

import gesturesmith
from gesturesmith.score.cues import CuePart, cues

PARTS = "".join(f"part {name}\n  instrument: {name}\n" for name in ("horn", "tuba", "trombone"))
HEAD = f"pitches: written\nmeter: 4/4\n{PARTS}passage p\n"


LONGER = (8, 16, "trombone", "", False)
LATER = (12, 16, "tuba", "bass", False)


def cues_of(**lines):
    """Those of the horn: from when to when, from whom, in which clef, above its rest."""
    made = gesturesmith.engrave(HEAD + "".join(f"  {part}: {line}\n" for part, line in lines.items()))
    assert made.report.errors == ()
    musics = {s.report.part.name: s.music for s in made.snippets}
    others = tuple(CuePart(title=n, quote=n, music=m) for n, m in musics.items() if n != "horn")
    return [(int(c.start), int(c.end), c.quote, c.clef, c.above) for c in cues(musics["horn"], others)]


@pytest.mark.parametrize(
    ("horn", "tuba", "trombone", "found"),
    [
        # The last two bars of four; who plays longer leads.
        (
            "rest 16, C5 for 4",
            "rest 12, C2 for 2, rest 6",
            "rest 8, F3 for 8, rest 4",
            [LONGER],
        ),
        # Three bars are soon counted.
        ("rest 12, C5 for 8", "rest 20", "F3 for 12, rest 8", []),
        ("rest 15, C5 for 1, rest 4", "rest 20", "F3 for 15, rest 5", []),
        # Nobody plays.
        ("rest 16, C5 for 4", "rest 20", "F3 for 4, rest 16", []),
        # What leads up to the entry is better than what ends before it; the cue begins where it does.
        (
            "rest 16, C5 for 4",
            "rest 14, C2 for 2, rest 4",
            "rest 8, F3 for 4, rest 8",
            [LATER],
        ),
        # An entry within a bar: the bars before it.
        ("rest 17, C5 for 3", "rest 20", "rest 12, F5 for 5, rest 3", [(12, 16, "trombone", "", True)]),
        # After the last entry nobody waits for anything.
        ("C5 for 4, rest 16", "rest 20", "F3 for 20", []),
    ],
)
def test_where_a_part_has_cues(horn, tuba, trombone, found):
    assert cues_of(horn=horn, tuba=tuba, trombone=trombone) == found


def test_without_bars_there_are_none():
    text = (
        HEAD.replace("meter: 4/4", "meter: free")
        + "  horn: rest 30, C5 for 2\n  tuba: C2 for 32\n  trombone: rest 32\n"
    )
    made = gesturesmith.engrave(text)
    horn, tuba = (s.music for s in made.snippets if s.report.part.name in ("horn", "tuba"))
    assert cues(horn, (CuePart(title="", quote="", music=tuba),)) == ()
    assert horn.beats == Fraction(32)
