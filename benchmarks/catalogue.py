"""A made-up catalogue to try batches on: 300 gestures over five instruments in forty files in folders.

python benchmarks/catalogue.py FOLDER [SEED]

The same seed gives the same files. About one gesture in twelve is beyond its instrument, and two files have a line
that cannot be read. Composers, titles and gestures are invented.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

FILES, GESTURES, BROKEN = 40, 300, (13, 27)
_COMPOSERS = ("Ada Quillmere", "Tobin Harrowgate", "Ines Valcour")
_TITLES = (
    *("Salt Road", "Nine Lanterns", "The Ferryman Waits", "Peat and Copper", "Low Cloud", "Quarry Songs"),
    *("Eight Bridges", "Winter Ledger", "Glasshouse", "A Field in Two Colours"),
)
_NAMES = ("ash", "brook", "cinder", "drift", "ember", "fern", "gorse", "heath", "iron", "juniper", "kelp", "larch")
_NOTES = ("Not too even.", "As if from another room.", "Hold back, then let go.", "Keep the air moving.")
_FOOTNOTE = "Follow the shape; the pitches are only a guide."

# Instrument, how pitches are given, the part, pitches from low to high, and one beyond it.
_INSTRUMENTS = (
    ("horn", "pitches: written", "Horn in F", ("C4", "E4", "G4", "Bb4", "C5", "D5", "E5", "G5"), "A6"),
    ("trumpet", "pitches: written", "Trumpet in B-flat", ("C4", "E4", "F4", "G4", "B4", "C5", "D5", "F5"), "B6"),
    ("trombone", "", "Trombone", ("Bb2", "D3", "F3", "G3", "Bb3", "C4", "D4", "F4"), "F6"),
    ("euphonium", "", "Euphonium", ("Bb2", "D3", "F3", "G3", "Bb3", "C4", "D4", "F4"), "F6"),
    ("tuba", "", "Tuba", ("C2", "E2", "G2", "A2", "C3", "D3", "E3", "G3"), "C6"),
)


def write(folder: Path, seed: int = 1) -> int:
    """Write the catalogue below a folder; how many gestures there are."""
    chance = random.Random(seed)
    written = 0
    for number in range(FILES):
        count = GESTURES // FILES + (number < GESTURES % FILES)
        place, text = _file(chance, number, count)
        path = folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8", newline="\n")
        written += count
    return written


def _file(chance: random.Random, number: int, count: int) -> tuple[str, str]:
    """One part: its place and its text."""
    instrument, pitches, part, ladder, beyond = _INSTRUMENTS[number % len(_INSTRUMENTS)]
    title = _TITLES[number // len(_INSTRUMENTS) % len(_TITLES)]
    top = [
        f"instrument: {instrument}",
        pitches,
        f"tempo: {chance.choice((52, 60, 72, 84))}",
        f'title: "{title}"',
        f'composer: "{_COMPOSERS[number % len(_COMPOSERS)]}"',
        f'part: "{part}"',
    ]
    names = chance.sample(_NAMES, count)
    blocks = [_gesture(chance, name, instrument, ladder, beyond) for name in names]
    blocks.append(_passage(names))
    if number % 4 == 0:
        blocks.append(_exercises(names[0], ladder))
    if number in BROKEN:
        blocks[1] = blocks[1].replace("  contour:", "  conture:")
    stem = title.lower().replace(" ", "-")
    return f"{title[0].lower()}/{stem}/{instrument}.gesture", "\n".join([*filter(None, top), "", *blocks])


def _gesture(chance: random.Random, name: str, instrument: str, ladder: tuple[str, ...], beyond: str) -> str:
    """One gesture as a block."""
    at = chance.randrange(len(ladder) - 3)
    low, middle, high = ladder[at], ladder[at + 1], ladder[at + 3]
    kinds = [
        ("", f"{low}, {high} accent, {middle}", "mp < f"),
        ("flutter-tongue", f"{middle}", "mf"),
        ("bend", f"{high}", "mp"),
        ("growl", f"{middle} tenuto", "f"),
        ("scoop + fall", f"{middle} accent", "f"),
        ("double-tongue", f"{middle}", "p"),
        ("air", f"{low}", "mp"),
        ("muted", f"{low}, {middle}, {high}", "p"),
        ("slide-gliss", f"{middle} -- {ladder[at]}", "mf")
        if instrument == "trombone"
        else ("half-valve", f"x{low} ~~ x{high}@2 ~~ x{middle}@3", "p < f@3 > p"),
    ]
    technique, contour, dynamics = chance.choice(kinds)
    if chance.random() < 1 / 12:
        technique, contour, dynamics = "", f"{low}, {beyond}", "mf"
    lines = [f'gesture {name} "{name.capitalize()}"']
    lines += [f"  technique: {technique}"] if technique else []
    lines += [f"  contour: {contour}", "  lasts: 4 beats", f"  dynamics: {dynamics}"]
    lines += ["  attacks: 8"] if technique == "double-tongue" else []
    lines += [f'  note: "{chance.choice(_NOTES)}"'] if chance.random() < 0.2 else []
    lines += [f'  footnote: "{_FOOTNOTE}"'] if technique == "half-valve" else []
    return "\n".join([*lines, ""])


def _passage(names: list[str]) -> str:
    return f'passage all "All of them"\n  play: {", rest 4, ".join(names[:3])}\n'


def _exercises(name: str, ladder: tuple[str, ...]) -> str:
    return "\n".join(
        [
            f'exercises week-one "{name.capitalize()}, week one"',
            f"  from: {name}",
            f"  start: {ladder[0]}..{ladder[2]} by 1",
            "  tempo: 52, 60",
            "  order: easiest first",
            "  keep: 8",
            "",
        ]
    )


def main() -> int:
    if len(sys.argv) not in (2, 3):
        print(__doc__, file=sys.stderr)
        return 2
    count = write(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    print(f"{count} gestures in {FILES} files below {sys.argv[1]}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
