"""The order in which bars are played."""

from __future__ import annotations

from fractions import Fraction

import pytest

from gesturesmith.importers import order
from gesturesmith.importers.notated import RepeatSigns, ScoreBar


def bars(signs: str) -> list[ScoreBar]:
    """Bars in words: `|:` and `:|` for repeats, `1[` and `]` for endings, segno, coda, to-coda, ds, dc, fine; a bar
    without any is `-`."""
    found = []
    for word in signs.split():
        said = word.split(",")
        ending = next((w for w in said if w.endswith("[")), "")
        found.append(
            ScoreBar(
                number=str(len(found) + 1),
                lasts=Fraction(4),
                meter=(4, 4),
                signs=RepeatSigns(
                    starts="|:" in said,
                    ends=":|" in said or "3:|" in said,
                    times=3 if "3:|" in said else 2,
                    ending=tuple(map(int, ending[:-1].split("+"))) if ending else (),
                    ending_ends="]" in said,
                    segno="s" if "segno" in said else "",
                    coda="c" if "coda" in said else "",
                    to_coda="c" if "to-coda" in said else "",
                    dal_segno="s" if "ds" in said else "",
                    da_capo="dc" in said,
                    fine="fine" in said,
                ),
            )
        )
    return found


@pytest.mark.parametrize(
    ("signs", "played"),
    [
        ("- - -", "123"),
        ("- |: :| -", "123234"),
        ("- :| -", "12123"),
        ("|:,:| |:,:| -", "11223"),
        ("|: - 3:|", "123123123"),
        ("|: - 1[,],:| 2[,] -", "1231245"),
        ("|: 1+2[,],:| 3[,] -", "1212134"),
        ("|: 1[,],:| 2[,],:| 3[,] -", "1213145"),
        ("- fine - dc", "123412"),
        ("- segno fine ds -", "123423"),
        ("- segno to-coda ds coda -", "12342356"),
        ("|: - :| fine - dc", "1231234561234"),
        ("|: 1[,],:| 2[,] fine dc", "121345134"),
        ("- dc", "1212"),
        ("- ds", "12"),
        ("- :| - :|", "12123434"),
    ],
)
def test_repeats_endings_and_jumps(signs, played):
    found, complete = order.played(bars(signs))
    assert ("".join(str(n + 1) for n in found), complete) == (played, True)


def test_the_number_of_bars_played_has_a_limit(monkeypatch):
    monkeypatch.setattr(order, "MAX_PLAYED", 5)
    assert order.played(bars("|: - 3:|")) == ((0, 1, 2, 0, 1), False)
