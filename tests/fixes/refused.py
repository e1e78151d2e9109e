"""Gestures to put right: those of the demo and of the rules, and a few hundred made up by a fixed recipe."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

from gesturesmith import techniques
from gesturesmith.rules import all_rules
from gesturesmith.rules.shared.doc import sections
from gesturesmith.techniques.base import Technique, clash

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "docs" / "demo" / "not-as-written.gesture"
MARKED = sorted((ROOT / "tests" / "rules" / "marked").glob("*.gesture"))

_SIGNS = {"straight": "--", "wavy": "~~", "broken": "::", "dotted": "..", "arrow": "->", "slur": "__", "none": ","}
_INSTRUMENTS = ("horn", "trumpet", "trombone", "tuba", "horn-f", "natural-horn-eb", "bass-trombone", "euphonium")
_NAMES = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


def known() -> dict[str, str]:
    """The demo, the marked-up files and the example of every rule, by name."""
    files = {p.stem: p.read_text("utf-8") for p in (DEMO, *MARKED)}
    return files | {r.name: sections(r.doc)["Fires"] for r in all_rules()}


def made_up(count: int, seed: int = 1) -> Iterator[str]:
    """Files of one gesture each: any technique on any instrument, at any height, in any length. All can be read."""
    chance = random.Random(seed)
    for _ in range(count):
        yield _file(chance, chance.choice(_INSTRUMENTS))


def _file(chance: random.Random, instrument: str) -> str:
    rows = [f"instrument: {instrument}", f"pitches: {chance.choice(('written', 'sounding'))}"]
    rows += [f"tempo: {chance.choice((40, 60, 72, 96, 132, 200))}", "", "gesture a"]
    used = _techniques(chance)
    if used:
        rows.append(f"  technique: {' + '.join(t.key for t in used)}")
    points = _contour(chance, used)
    rows.append(f"  contour: {points[0]}")
    seconds = chance.random() < 0.2
    length = chance.choice((1, 2, 3, 4, 8, 16, 40)) * (points[1] if chance.random() < 0.3 else 1)
    rows.append(f"  lasts: {length} {'s' if seconds else 'beats'}")
    if chance.random() < 0.4:
        levels = ("n", "pp", "p", "mf", "f", "ff", "fff")
        rows.append("  dynamics: " + chance.choice((" < ", " > ", " ")).join(chance.sample(levels, 2)))
    if chance.random() < 0.15:
        notes, some = points[0].count(",") + 1, chance.randint(2, 24)
        slurred = notes == 1 and "__" in points[0]
        shape = chance.choice(("", " accelerating", " slowing")) if "@" not in points[0] else ""
        rows.append(f"  attacks: {1 if slurred else notes if notes > 1 else some}{shape}")
    if chance.random() < 0.2:
        rows.append(f"  fingering: {chance.choice(('held', '0', '1', '1-2', '3', '1-2-3'))}")
    return "\n".join(rows) + "\n"


def _techniques(chance: random.Random) -> tuple[Technique, ...]:
    every = [techniques.get(n) for n in techniques.names() if n != "ordinary"]
    used: list[Technique] = []
    for technique in chance.sample(every, chance.choice((0, 1, 1, 1, 2, 2, 3))):
        if not any(clash(technique, t) for t in used) or chance.random() < 0.05:
            used.append(technique)
    return tuple(used)


def _contour(chance: random.Random, used: tuple[Technique, ...]) -> tuple[str, int]:
    """A contour that mostly suits the techniques, and how many points it has."""
    fewest = max([t.points[0] for t in used], default=1)
    most = min([t.points[1] or 6 for t in used], default=6)
    count = chance.randint(fewest, max(fewest, most)) if chance.random() < 0.9 else chance.randint(1, 7)
    lines = set(_SIGNS)
    for technique in used:
        lines &= set(technique.lines) or set(_SIGNS)
    signs = sorted(lines) if lines and chance.random() < 0.9 else sorted(_SIGNS)
    here = chance.randint(30, 92)
    text = _note(chance, here)
    for _ in range(count - 1):
        here = min(110, max(14, here + chance.choice((-19, -12, -7, -5, -3, -2, -1, 1, 2, 3, 5, 7, 12, 19))))
        text += f" {_SIGNS[chance.choice(signs)]} {_note(chance, here)}"
    return text, count


def _note(chance: random.Random, number: int) -> str:
    octave, step = divmod(number, 12)
    return ("x" if chance.random() < 0.15 else "") + f"{_NAMES[step]}{octave - 1 if octave else 0}"
