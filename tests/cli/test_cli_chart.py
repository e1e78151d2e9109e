"""`chart`: what is made, where, and its error messages."""

from __future__ import annotations

import pytest
from sampling import whole

pytestmark = pytest.mark.lilypond

OWN = """\
instrument_profile = 1
based_on = "trumpet"
key = "my-trumpet"
name = "my own trumpet"
"""


@whole
def test_every_chart_as_a_page(run, here) -> None:
    result = run("chart", "trumpet")
    assert result.status == 0, result.err
    kinds = ("fingering", "ladders", "map", "quarter-tones")
    assert sorted(path.name for path in (here / "out").iterdir()) == [f"trumpet-{kind}.pdf" for kind in kinds]


def test_one_chart_as_pictures(run, here) -> None:
    result = run("chart", "trombone", "--kind", "fingering", "--as", "svg,png,ly", "--paper", "letter")
    assert result.status == 0, result.err
    found = sorted(path.name for path in (here / "out").iterdir())
    assert found == ["trombone-fingering.ly", "trombone-fingering.png", "trombone-fingering.svg"]
    assert b"<title" in (here / "out" / "trombone-fingering.svg").read_bytes()
    assert (here / "out" / "trombone-fingering.png").read_bytes().startswith(b"\x89PNG")
    assert (
        "unchanged: all 3 files"
        in run("chart", "trombone", "--kind", "fingering", "--as", "svg,png,ly", "--paper", "letter").out
    )


def test_a_name_of_ones_own(run, here) -> None:
    result = run("chart", "trumpet", "--kind", "ladders", "--name", "{part}-{instrument}", "--wording", "it")
    assert result.status == 0, result.err
    assert [path.name for path in (here / "out").iterdir()] == ["Tromba_in_si_bemolle-trumpet-ladders.pdf"]


def test_an_instrument_of_ones_own(run, here) -> None:
    (here / "mine.toml").write_text(OWN, "utf-8")
    result = run("chart", "mine.toml", "--kind", "ladders", "--wording", "de")
    assert result.status == 0, result.err
    assert (here / "out" / "my-trumpet-ladders.pdf").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["trumpett"], "unknown instrument 'trumpett'; did you mean trumpet"),
        (["zither"], "unknown instrument 'zither' (choose from"),
        (["missing.toml"], "missing.toml"),
        (["horn", "--kind", "fingring"], "unknown chart 'fingring' (choose from fingering, ladders"),
        (["horn", "--kind", ","], "missing chart"),
        (["horn", "--wording", "en,de,fr"], "`wording` takes one language, or two with a comma"),
        (["horn", "--as", "ily"], "charts have no such format"),
        ([], "INSTRUMENT"),
    ],
)
def test_what_is_wrong(run, arguments, words) -> None:
    result = run("chart", *arguments)
    assert result.status == 2
    assert words in result.err
