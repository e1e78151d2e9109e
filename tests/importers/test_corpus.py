"""Every score for brass that music21's corpus has in MusicXML is read as music21 reads it, and rarely questioned.

`make test` takes a sample, `make test-all` all of them.
"""

from __future__ import annotations

import re
import zipfile
from collections import Counter
from fractions import Fraction
from pathlib import Path

import music21
import pytest
from importers.test_excerpt import played
from music.bach import MOVEMENTS
from sampling import WHOLE, whole

from gesturesmith.diagnostics import Severity
from gesturesmith.importers.excerpt import excerpt
from gesturesmith.importers.judged import judged
from gesturesmith.importers.musicxml import read
from gesturesmith.importers.notated import NotatedPart, NotatedScore

CORPUS = Path(music21.__file__).parent / "corpus"
MOST_CAUTIONS = 0.05  # of all notes
# music21 10.5.1: those that have parts with names of brass instruments; its other formats have none.
SCORES = [
    *(f"bach/{name}" if name.endswith(".xml") else f"bach/{name}.mxl" for name in MOVEMENTS),
    "trecento/Fava_Dicant_nunc_iudei.xml",
    "trecento/PMFC_13_01-Kyrie-Summe-Clementissime.mxl",
    "trecento/PMFC_13_01-Kyrie-Summe-Clementissime.xml",
]
SAMPLE = ["bach/bwv29.8.mxl", "bach/bwv19.7.mxl", "trecento/Fava_Dicant_nunc_iudei.xml"]
# Parts that are named after another instrument than they are for; the user would say so.
INSTRUMENTS = {
    ("bach/bwv130.6.mxl", "Horn 1"): "trumpet",  # three trumpets in C, as their compass shows: sounding C6
    ("bach/bwv19.7.mxl", "Horn 1"): "trumpet",  # the same
}
# Rules that may caution here, with reasons.
EXCEPTIONS = {
    "outside-usual-range": "horns in G up to sounding G5, which play the sixteenth harmonic; the compass published "
    "for the double horn ends at F5",
}  # fmt: skip


def notes(score: NotatedScore, part: NotatedPart) -> list[tuple[Fraction, float]]:
    """Onset in quarters and written pitch in semitones of every note that has time."""
    at = Fraction(0)
    found = []
    for index, bar in enumerate(part.bars):
        found += [(at + n.at, float(n.written.pitch_cents / 100)) for n in bar.notes if not n.grace]
        at += score.bars[index].lasts
    return sorted(found)


def theirs(part: music21.stream.Part) -> list[tuple[Fraction, float]]:
    """The same as music21 reads it."""
    return sorted(
        (Fraction(n.getOffsetInHierarchy(part)), pitch.ps)
        for n in part.recurse().notes
        if not n.duration.isGrace
        for pitch in n.pitches
    )


def text(path: Path) -> str:
    """The XML of a score."""
    data = path.read_bytes()
    if data.startswith(b"PK"):
        with zipfile.ZipFile(path) as packed:
            name = next(
                n for n in packed.namelist() if not n.startswith("META-INF") and n.endswith(("xml", "musicxml"))
            )
            data = packed.read(name)
    return data.decode("utf-16" if data.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8", "replace")


@whole
def test_there_are_no_others():
    """Every file in MusicXML whose names or sounds of parts are those of a brass instrument, by its text; and every
    other is read as well, if only to say that nothing in it is for us."""
    names = re.compile(
        r"<(?:part-name|instrument-name)[^>]*>[^<]*\b(?:horns?|corn[oi]|cornets?|trumpets?|tromb[ae]|clarin[oi]|trombones?|"
        r"tromboni|posaunen?|trompeten?|tuba|euphonium)\b|<instrument-sound>brass\.",
        re.IGNORECASE,
    )
    files = [path for path in sorted(CORPUS.rglob("*")) if path.suffix in (".xml", ".mxl", ".musicxml")]
    assert len(files) > 600
    assert [str(path.relative_to(CORPUS)) for path in files if names.search(text(path))] == sorted(SCORES)
    for path in files:
        score = read(path.read_bytes())
        assert score.errors == (), path
        assert bool(score.parts) == (str(path.relative_to(CORPUS)) in SCORES), path


@pytest.mark.parametrize("name", SCORES if WHOLE else SAMPLE)
def test_notes_are_those_that_music21_reads(name):
    data = (CORPUS / name).read_bytes()
    ours = read(data)
    everything = read(data, lambda _name: "tuba")  # whatever a part is for
    other = music21.converter.parse((CORPUS / name), forceSource=True)
    assert ours.parts
    assert ours.errors == ()
    assert len(everything.parts) == len(other.parts)
    brass = {part.id for part in ours.parts}
    for part, there in zip(everything.parts, other.parts, strict=True):
        assert part.id not in brass or notes(everything, part) == theirs(there), part.name


def test_nothing_is_refused_and_little_is_questioned():
    found: Counter[str] = Counter()
    count = 0
    for name in SCORES if WHOLE else [*SAMPLE, "bach/bwv248.42-4.mxl"]:
        data = (CORPUS / name).read_bytes()
        said = judged(read(data, lambda part, name=name: INSTRUMENTS.get((name, part), "")), name)
        for part in said.parts:
            count += part.notes
            for one in part.findings:
                assert one.severity is not Severity.REFUSED, (name, part.part, one.text)
                if one.severity is Severity.CAUTION:
                    found[one.rule] += len(one.places)
    assert set(found) <= set(EXCEPTIONS)
    assert found.total() < MOST_CAUTIONS * count
    assert count > (4500 if WHOLE else 500)


@pytest.mark.parametrize("name", SCORES if WHOLE else SAMPLE)
def test_an_excerpt_of_the_whole_has_its_notes(name):
    """Times in quarters and sounding cents, written out again by way of the language."""
    score = read((CORPUS / name).read_bytes())
    made = excerpt(score, range(len(score.bars)), name=name)
    assert made is not None
    found = played(made.text)
    for index, part in enumerate(score.parts):
        players = [
            rows for title, rows in found.items() if title == part.name or title.startswith(f"{part.name}, ")
        ]
        there = {(at, cents) for rows in players for at, cents, _ in rows}
        asked = sounding(score, index)
        assert asked <= there
        assert len(there) - len(asked) <= sum(n.tied for bar in part.bars for n in bar.notes)


def sounding(score: NotatedScore, index: int) -> set[tuple[Fraction, Fraction]]:
    """Time and sounding cents of the notes of a part, without grace notes and those that a tie leads to."""
    found = set()
    at = Fraction(0)
    for bar, own in zip(score.bars, score.parts[index].bars, strict=True):
        found |= {
            (at + n.at, n.written.transposed(own.sounding).pitch_cents)
            for n in own.notes
            if not n.grace and not n.tied
        }
        at += bar.lasts
    return found
