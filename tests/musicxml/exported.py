"""What is written as MusicXML, with what the file asks for: one export for all the programs that read it."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from reading import generate, pages, says

from gesturesmith import techniques, writers
from gesturesmith.source import Source
from gesturesmith.writers import Item

DOCS = Path(__file__).parents[2] / "docs"
DEMO = DOCS / "demo" / "fog-signals.gesture"
GALLERY = sorted((DOCS / "gallery").glob("*.gesture"))
INSTRUMENTS = ("horn", "trumpet", "trombone", "tuba")
TECHNIQUES = techniques.names()
_WRITER = writers.get("musicxml")


@dataclass(frozen=True)
class Exported:
    """One document: its text, and the lines that each of its systems asks for, from the top."""

    name: str
    data: bytes
    systems: tuple[tuple[says.Said, ...], ...]


@dataclass
class Export(pages.Job):
    """Takes the items of the product where pages are made for reading back; keeps no LilyPond."""

    made: list[Exported] = field(default_factory=list)

    def add(self, item: Item, scores, book: str | None = None) -> None:
        # A sheet begins with a warm-up and may end with a cool-down, which have no scores of their own.
        lines = [score for score in scores if score.kind not in ("warm-up", "cool-down")]
        asked = tuple(
            tuple(said for _, said in score.staves) if isinstance(score, pages.ScoreOfParts) else (score.said,)
            for score in lines
        )
        if _WRITER.takes(item):
            data = _WRITER.finish(item, b"")
            self.made.append(Exported(f"{lines[0].file} {item.place} ({item.kind})", data, asked))


@cache
def of_file(path: Path, *, snippets: bool = False, pitches: str = "written") -> tuple[Exported, ...]:
    """The page of a file; of one with parts the score and the parts."""
    job = Export()
    source = Source(path.name, path.read_text("utf-8"))
    pages.add_file(job, source, path.parent, snippets=snippets, pitches=pitches)
    return tuple(job.made)


@cache
def generated(seed: int) -> tuple[Exported, ...]:
    """The page of an invented file."""
    job = Export()
    pages.add_file(job, Source(f"generated {seed}", generate.file(seed)), draft=True)
    return tuple(job.made)


@cache
def generated_parts(seed: int) -> tuple[Exported, ...]:
    """Score and parts of an invented file with parts."""
    job = Export()
    pages.add_parts(job, Source(f"parts {seed}", generate.parts(seed)), draft=True)
    return tuple(job.made)


def sheets(instrument: str, technique: str) -> tuple[Exported, ...]:
    """The sheets of a technique; none if the instrument does not have it."""
    job = Export()
    pages.add_graded(job, technique, instrument)
    return tuple(job.made)
