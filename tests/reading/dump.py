"""LilyPond's output: every printed grob, with the glyphs and texts of its stencil and its position."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

import timing

from gesturesmith import paths
from gesturesmith.lilypond import LilyPond, find

SETTINGS = Path(__file__).with_name("dump.ily")
_LONGEST_S = 900
# How full a page is does not matter for reading; drafts with many findings are crowded.
_FULL = re.compile(r"warning: (compressing over-full page|page \d+ has been compressed|.*page must be compressed)")
_LAYOUT = re.compile(r"\\layout \{ \\gs\w+|(?<=\\layout \{)(?= \})")


@dataclass(frozen=True)
class Grob:
    """One printed thing.

    name      LilyPond's name of its kind
    id        the same for pieces of one thing on both sides of a line break
    x, right  its edges in its system, staff spaces
    y         height of its reference point in half staff spaces from the staff's middle; None outside the staff
    at        quarter notes from the score's beginning, and its place among grace notes (negative: before); None for
              things without a moment
    drawn     (x, y, kind, what) of each glyph, text and shape, in its own staff spaces
    more      by kind: the ids of things that belong together
    """

    name: str
    id: int
    score: int
    system: int
    staff: int
    voice: int
    voice_name: str
    x: float
    right: float
    y: float | None
    at: Fraction | None
    grace: Fraction
    drawn: tuple[tuple[float, float, str, str], ...]
    more: dict = field(compare=False)

    @property
    def glyphs(self) -> tuple[str, ...]:
        return tuple(what for _, _, kind, what in self.drawn if kind == "glyph")

    @property
    def text(self) -> str:
        """Its words from left to right, then from top to bottom."""
        parts = sorted((d for d in self.drawn if d[2] in ("text", "glyph")), key=lambda d: (d[0], -d[1]))
        return " ".join(_SIGN.get(what, what) for _, _, kind, what in parts if kind == "text" or what in _SIGN)

    def moment(self, name: str) -> Fraction | None:
        """The time of one of its bounds, quarter notes."""
        found = self.more.get(name)
        return 4 * Fraction(found[0]) if found else None


_SIGN = {"accidentals.flat": "♭", "accidentals.sharp": "♯"}


def numbered(document: str) -> str:
    """The document with numbered scores, laid out in whole pages without writing a file."""
    count = -1

    def number(match: re.Match[str]) -> str:
        nonlocal count
        count += 1
        return f"{match[0]} readerScore = #{count} "

    laid_out = _LAYOUT.sub(number, document).replace("\\gsCropped\n", "")
    return laid_out.replace("\\book {", "#(ly:set-option 'print-pages #f)\n\\book {")


def read(document: str, folder: Path, program: Path | None = None, *, quiet: bool = True) -> dict[int, list[Grob]]:
    """The grobs of every score of a document, by the score's number. If `quiet`, any message from LilyPond is a
    failure."""
    if program is None:
        found = find(None)
        assert isinstance(found, LilyPond), found
        program = found.path
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pages.ly").write_text(numbered(document), "utf-8")
    # LilyPond reads the value of an option as Scheme: so a name without a folder, which could contain a space.
    (folder / SETTINGS.name).write_bytes(SETTINGS.read_bytes())
    command = [str(program), f"-dinclude-settings={SETTINGS.name}", "-dno-print-pages", "--loglevel=WARNING"]
    done = timing.run(
        [*command, "-I", str(paths.templates()), "pages.ly"], cwd=folder, text=True, seconds=_LONGEST_S
    )
    assert done.returncode == 0, done.stderr[-3000:]
    said = [line for line in done.stderr.splitlines() if line and not _FULL.search(line)]
    assert not (quiet and said), said
    return grobs((folder / "reading.jsonl").read_text("utf-8"))


def grobs(text: str) -> dict[int, list[Grob]]:
    """The grobs of each score; one typeset more than once, as markups may be, counts once."""
    runs: dict[int, dict[int, list[Grob]]] = {}
    for line in text.splitlines():
        raw = json.loads(line)
        runs.setdefault(raw["score"], {}).setdefault(raw["run"], []).append(_grob(raw))
    return {score: by_run[max(by_run)] for score, by_run in sorted(runs.items())}


def _grob(raw: dict) -> Grob:
    when = raw["when"]
    return Grob(
        name=raw["name"],
        id=raw["id"],
        score=raw["score"],
        system=raw["system"],
        staff=raw["staff"] or 0,
        voice=raw["voice"] or 0,
        voice_name=raw["voice-name"] or "",
        x=raw["x"],
        right=raw["right"],
        y=raw["y"],
        at=4 * Fraction(when[0]) if when else None,
        grace=Fraction(when[1]) if when else Fraction(0),
        drawn=tuple((d[0], d[1], d[2], str(d[3])) for d in raw["drawn"]),
        more=raw,
    )
