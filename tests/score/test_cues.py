"""Which cues a part has: before an entry after a long rest, from the part that leads up to it."""

from __future__ import annotations

import pytest

import gesturesmith
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.score.cues import CuePart, cues
from gesturesmith.source import Source

PARTS = "".join(f"part {name}\n  instrument: {name}\n" for name in ("horn", "tuba", "trombone"))
TWO = "pitches: written\nmeter: 4/4\npart horns\n  instrument: horn\n  players: 2\npart tuba\n  instrument: tuba\n"
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


@pytest.mark.parametrize(
    ("line", "other", "found"),
    [
        # Up to eight beats, from the beginning of a note: part of one could not be read.
        ("rest 20, C5 for 2", "C2 for 11, D2 for 4, E2 for 5", (15, 20)),
        ("rest 20, C5 for 2", "C2 for 13, D2 for 4, E2 for 3", (13, 20)),
        ("rest 16, C5 for 2", "rest 6, C2 for 12", (6, 16)),
        # Fewer beats than four bars of four are soon counted.
        ("rest 15, C5 for 2", "C2 for 3, D2 for 12", None),
        # Nobody plays then.
        ("rest 20, C5 for 2", "C2 for 4", None),
        # What is repeated freely has no notes to follow, and waits for nothing.
        ("rest 20, C5 for 2", "C2 for 12, b, C2 for 2", None),
        ("b, rest 15, C5 for 2", "C2 for 20, D2 for 5", None),
        # Seconds pass as beats do.
        ("rest 20, C5 for 2", "C2 for 14, in-seconds, D2 for 2", (14, 20)),
    ],
)
def test_without_bars_a_cue_is_as_long_in_beats(line, other, found):
    text = (
        "pitches: written\ntempo: 60\npart horn\n  instrument: horn\npart tuba\n  instrument: tuba\n"
        "box b\n  play: C3 for 1/2, D3 for 1/2 breath\n  lasts: 6 s\n"
        "gesture in-seconds\n  technique: half-valve\n  contour: xC3 ~~ xE3\n  lasts: 4 s\n"
        f"passage p\n  horn: {line}\n  tuba: {other}\n"
        "passage q\n  tuba: b, in-seconds\n"
    )
    made = gesturesmith.engrave(text)
    assert made.report.errors == ()
    musics = {s.report.part.name: s.music for s in made.snippets if s.report.name == "p"}
    horn, tuba = musics["horn"], musics["tuba"]
    cue = cues(horn, (CuePart(title="", quote="", music=tuba),))
    assert [(c.start, c.end) for c in cue] == ([found] if found else [])


# Who enters has the cue, the upper player where both do; the other's line stands beside it and is read along.
@pytest.mark.parametrize(
    ("line", "upper", "lower"),
    [
        ("rest 20, C5 / E5 for 4", [(12, 20)], []),
        ("rest 20, rest 4 / E5 for 4", [], [(12, 20)]),
        ("rest 20 / E5 for 20, C5 / E5 for 4", [], []),
        ("rest 20, C5 for 4 / rest 4", [(12, 20)], []),
    ],
)
def test_two_divided_players_have_one_cue(line, upper, lower):
    text = f"{TWO}passage p\n  horns: {line}\n  tuba: C2 for 12, D2 for 12\n"
    made = compile_text(Source("p.gesture", text), Options(formats=("pdf",), cues=True))
    page = next(item for item in made.items if item.kind == "page" and item.name == "horns")
    assert [[(s.start, s.end) for s in line.music.cues] for line in page.systems[0]] == [upper, lower]


def test_each_of_two_divided_players_gives_cues():
    text = f"{TWO}passage p\n  horns: rest 12, rest 8 / E5 for 8, C5 for 4\n  tuba: C2 for 4, rest 16, D2 for 4\n"
    made = compile_text(Source("p.gesture", text), Options(formats=("pdf",), cues=True))
    page = next(item for item in made.items if item.kind == "page" and item.name == "tuba")
    assert [(c.start, c.end, c.name) for c in page.systems[0][0].music.cues] == [(12, 20, "horns (2.)")]
