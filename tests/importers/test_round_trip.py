"""What we write as MusicXML and read back is the same gesture, but for what MusicXML cannot hold, which is listed.

`make test` takes a sample, `make test-all` demo, gallery and a hundred generated files, `make soak` a thousand.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from reading import generate
from sampling import count, sample

from gesturesmith import techniques, writers
from gesturesmith.importers.musicxml import read
from gesturesmith.importers.phrases import lines
from gesturesmith.importers.times import timetable
from gesturesmith.model.builder import make
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.reading import read as read_text
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.source import Source
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling, spell

DOCS = Path(__file__).parents[2] / "docs"
FILES = [DOCS / "demo" / "fog-signals.gesture", *sorted((DOCS / "gallery").glob("*.gesture"))]
WRITER = writers.get("musicxml")


def lost(gesture: Gesture) -> str:
    """Why a gesture cannot come back as it was, "" if it must.

    MusicXML has no heights without a pitch and no noises, and a line has no arrow; a series of attacks is written
    out, two notes at once are two players, a sung line is another voice; nothing says that the air goes in or out,
    or that the hand moves little by little.
    """
    points = gesture.points
    every = {t for p in points for t in p.techniques}
    reasons = {
        "heights": any(p.kind in ("height", "extreme") for p in points),
        "noises": any(t.pitched == "none" for t in every),
        "arrows": any(s.kind == "arrow" for s in gesture.segments),
        "attacks": gesture.attacks is not None,
        "two notes": any(t.holds > 1 for t in every),
        "sung": gesture.sing is not None or any(t.sings for t in every),
        "bends drawn as lines": any(t.look.motion == "bend" for t in every),
        "breath": any(p.breath for p in points),
        "covers along a line": any((p.covers or p.opens) and p.reached == "line" for p in points),
        "texts of the composer": any(p.words for p in points) or bool(gesture.text),
        # Across a beat they are written as two tied eighths without strokes, which read as one note.
        "two eighths": any(p.strokes == "eighths" and p.until - p.at == 1 for p in points),
        "endings without a sign": any(not techniques.get(key).look.cancel for p in points for key in p.ends),
    }
    return ", ".join(name for name, there in reasons.items() if there)


def shown(gesture: Gesture) -> list[tuple[object, ...]]:
    """What a gesture asks for, point by point, and its levels and mute."""
    slid = {id(p) for a, b, _ in gesture.slides for p in (a, b)}
    points: list[tuple[object, ...]] = [
        (
            p.at,
            _name(p.pitch.written) if p.pitch is not None else p.kind,
            p.about,
            p.reached,
            p.held,
            p.stops,
            p.marks,
            p.strokes,
            # Whether a quarter tone was asked for as such or by its name, nothing shows.
            tuple(sorted(t.key for t in p.techniques if t.layer != "none" and t.grid == 100 and _acts(t, p, slid))),
            tuple(_name(g.point.pitch.written) for g in p.graces if g.point.pitch is not None),
            tuple(_name(g.point.pitch.written) for g in p.after if g.point.pitch is not None),
        )
        for p in gesture.points
    ]
    return [*points, *((n.level, n.at, n.join) for n in gesture.dynamics), (gesture.mute,)]


def _acts(technique: Technique, point: ContourPoint, slid: set[int]) -> bool:
    """Whether a technique does anything at a point: a way of sliding only where a line is."""
    return technique.layer != "motion" or id(point) in slid


def _name(written: Spelling) -> str:
    """The name of a pitch; of one in cents the note that it is nearest to is another spelling of the same."""
    return spell(written.pitch_cents).name if written.cents else written.name


def again(data: bytes) -> list[tuple[object, ...]]:
    """The same of what is read from a document: the only player's only phrase."""
    score = read(data)
    assert score.errors == ()
    ((line,),) = [lines(score, part, timetable(score)) for part in score.parts]
    (phrase,) = line.phrases
    made, errors = make(phrase.gesture)
    assert errors == ()
    return shown(made)


def documents(source: Source, folder: Path | None = None) -> Iterator[tuple[Gesture, bytes]]:
    """Each gesture of a file as it is read, with its document."""
    piece = read_text(source, folder=folder).piece
    gestures = {g.name: g for g in piece.gestures} if piece is not None else {}
    for item in compile_text(source, Options(folder=folder, pages=False)).items:
        if item.kind == "snippet" and item.name in gestures and WRITER.takes(item):
            yield gestures[item.name], WRITER.finish(item, b"")


def differences(source: Source, folder: Path | None = None) -> tuple[list[object], int]:
    """Gestures that come back differently, and how many were compared."""
    found: list[object] = []
    compared = 0
    for gesture, data in documents(source, folder):
        if not lost(gesture):
            compared += 1
            try:
                back = again(data)
            except (AssertionError, ValueError) as error:
                found.append((gesture.name, str(error)[:200]))
                continue
            if back != shown(gesture):
                asked = [row for row in shown(gesture) if row not in back]
                found.append((gesture.name, asked, [row for row in back if row not in shown(gesture)]))
    return found, compared


@pytest.mark.parametrize("path", sample(FILES, 12), ids=lambda path: path.stem)
def test_gestures_come_back(path):
    found, compared = differences(Source(path.name, path.read_text("utf-8")), path.parent)
    assert found == []
    assert compared or "parts" in path.stem


@pytest.mark.parametrize(
    ("instrument", "contour", "asked"),
    [
        ("horn", "C5, D5", ("Bb 1", "F 1-2")),
        ("trumpet", "C5, D5", ("0", "1-3")),
        ("trombone-f", "Bb3, C4", ("short 5", "T 3")),
    ],
)
def test_fingerings_come_back(instrument, contour, asked):
    text = f"instrument: {instrument}\npitches: written\nfingerings: all\ngesture a\n  contour: {contour}\n"
    text += f"  fingering: {', '.join(asked)}\n"
    ((gesture, data),) = documents(Source("a.gesture", text))
    score = read(data)
    ((line,),) = [lines(score, part, timetable(score)) for part in score.parts]
    made, _ = make(line.phrases[0].gesture)
    assert made.fingering.tubes == gesture.fingering.tubes == asked


@pytest.mark.parametrize(
    ("language", "word"), [("de", "½ Ventil"), ("fr", "gliss. d’harmoniques"), ("it", "mano fuori")]
)
def test_gestures_come_back_from_words_in_another_language(language, word):
    """The demo, with the words of its techniques in the language of the page."""
    text = f"wording: {language}\nwords: language\n{FILES[0].read_text('utf-8')}"
    source = Source(FILES[0].name, text)
    assert any(word in data.decode() for _, data in documents(source, FILES[0].parent))
    found, compared = differences(source, FILES[0].parent)
    assert found == []
    assert compared


def test_generated_gestures_come_back():
    found: list[object] = []
    compared = 0
    for seed in range(count(15, 100, 1000)):
        own, number = differences(Source(f"generated {seed}", generate.file(seed)))
        found += [(seed, *one) for one in own]
        compared += number
    assert found == []
    assert compared > count(15, 100, 1000)
