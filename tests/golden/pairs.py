"""Engraves pairs of techniques that go together, also with care, and looks for signs and words that touch or lack.

    python tests/golden/pairs.py FOLDER [--every N]

prints what is found of every Nth pair, and leaves pages of pictures in FOLDER. `test_pairs.py` reads a sample.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import batched, combinations
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from golden.geometry import document, run, score
from golden.outlines import KEPT_CLEAR, LINE_WORD, MARKED, OURS, Block, Staff, staves

from gesturesmith import techniques, wording
from gesturesmith.backends import lilypond
from gesturesmith.checker import check_text
from gesturesmith.score import gesture_score
from gesturesmith.score.marks import (
    Bend,
    Edge,
    Flutter,
    HandTurnStart,
    LineStart,
    Script,
    SecondNote,
    SpanStart,
    SungHead,
    TrillSign,
)
from gesturesmith.score.music import Music
from gesturesmith.source import Source
from gesturesmith.techniques.base import Technique, joining

_EACH = 80  # pairs in a document
# What a player reads at a note. Letters are narrower here than printed, so that what touches really does.
_SAID = ("GestureWords", "TextScript", "Script", "gs-above", "gs-edge", "gs-second", LINE_WORD)
_OVERLAP = 0.15  # staff spaces by which boxes of two of them may share room: rounding of curves


@dataclass(frozen=True)
class Pair:
    one: Technique
    other: Technique

    @property
    def name(self) -> str:
        return f"{self.one.key} + {self.other.key}"

    @property
    def both(self) -> tuple[Technique, Technique]:
        return self.one, self.other


def pairs() -> list[Pair]:
    """Every pair that goes, or goes with care."""
    every = [techniques.get(name) for name in techniques.names() if techniques.get(name).layer != "none"]
    return [Pair(a, b) for a, b in combinations(every, 2) if joining(a, b).verdict != "not"]


# Two notes that suit them, by instrument: usually, and where the first harmonic is meant.
_NOTES = {
    "trombone-f": ("F3", "Bb3", "Bb1", "G1"),
    "horn": ("G4", "C5", "F2", "Eb2"),
    "trumpet": ("G4", "C5", "C3", "A2"),
}


def _gesture(pair: Pair, number: int, instrument: str) -> str:
    low, high, *deep = _NOTES[instrument]
    one, two = deep if any(t.harmonic == "first" for t in pair.both) else (low, high)
    about = "x" if any(t.pitched != "exact" for t in pair.both) else ""
    one, two = f"{about}{one}", f"{about}{two}"
    contour, more = f"{one}, {two}@2", ""
    if any(t.pitched == "none" for t in pair.both):
        contour, more = "low, high@2", "  band: middle\n"
    if any(t.needs_line for t in pair.both):
        contour = f"{one} -- {two}@3/2, {one}@3" if not more else "low -- high@2"
    lines = f"  technique: {pair.name}\n{more}  contour: {contour}\n"
    return f"gesture g{number}\n{lines}  lasts: 4 beats\n  dynamics: mf\n"


def _instrument(pair: Pair) -> str:
    needs = {t.needs for t in pair.both}
    if needs & {"slide", "trigger"}:
        return "trombone-f"
    return "trumpet" if "valve-slide" in needs else "horn"


def engraved(some: Sequence[Pair]) -> Iterator[tuple[Pair, Music, str]]:
    """The music of each pair, and its LilyPond text."""
    for instrument in _NOTES:
        mine = [pair for pair in some if _instrument(pair) == instrument]
        text = f"instrument: {instrument}\npitches: written\n" + "".join(
            _gesture(pair, n, instrument) for n, pair in enumerate(mine)
        )
        if not mine:
            continue
        found = check_text(Source("pairs.gesture", text), suggestions=False)
        assert not found.reading.errors, [e.message for e in found.reading.errors][:3]
        assert found.reading.piece is not None
        for n, pair in enumerate(mine):
            music = gesture_score(found.cases[f"g{n}"], found.reading.piece.settings)
            clef = f'\\clef "{music.clef}" ' if music.clef else ""
            yield pair, music, f"{clef}{lilypond.engraved(music).unmarked}"


def unsaid(pair: Pair, music: Music) -> list[str]:
    """The techniques of a pair that nothing on the page tells of."""
    events = [e for part in music.parts for voice in part.voices for e in voice.events]
    said = " ".join(label.word for e in events for label in e.labels)
    marks = [m for e in events for m in (*e.marks, *e.ends)]
    shapes = {e.head.shape for e in events if e.head is not None}
    found = []
    for technique in pair.both:
        look = technique.look
        word = look.word.split("{", 1)[0].strip()
        shown = {
            "word": any(w and w in said for w in (word, look.breath_word)),
            "script": any(isinstance(m, Script) and m.sign == look.script for m in marks),
            "edge": any(isinstance(m, Edge) and m.shape == look.edge for m in marks),
            "tremolo": look.tremolo and any(isinstance(m, Flutter) for m in marks),
            "line_word": any(
                isinstance(m, LineStart) and look.line_word in m.word for m in marks if look.line_word
            ),
            "trill": look.trill and any(isinstance(m, TrillSign) for m in marks),
            "motion": look.motion and any(isinstance(m, Bend | HandTurnStart | LineStart) for m in marks),
            "head": look.head in shapes,
            "span": any(isinstance(m, SpanStart) and m.word == look.word for m in marks),
            "second": technique.trill and any(isinstance(m, SecondNote) for m in marks),
            "sung_head": look.sung_head and any(isinstance(m, SungHead) for m in marks),
            "mute": technique.takes_mute and any(w in said for w in ("sord", wording.text("mute-straight", "en"))),
        }
        wanted = [
            word,
            look.breath_word,
            look.script,
            look.edge,
            look.tremolo,
            look.line_word,
            look.trill,
            look.motion,
        ]
        if any(wanted) and not any(shown.values()):
            found.append(technique.key)
    return found


def touching(staff: Staff) -> list[str]:
    """Signs and words that share room with other signs, words or heads."""
    said = [b for b in staff.blocks if b.kind in _SAID]
    found = []
    for n, one in enumerate(said):
        others = [*said[n + 1 :], *(b for b in staff.blocks if b.kind in ("NoteHead", "Accidental", "DynamicText"))]
        found += [f"{one.kind} on {other.kind}" for other in others if _share(one, other)]
    return found


def _share(one: Block, other: Block) -> bool:
    if one.kind == other.kind and one.kind not in ("GestureWords", "gs-edge"):
        return False  # parts of one sign
    (a0, a1, b0, b1), (c0, c1, d0, d1) = one.box, other.box
    across, up = min(a1, c1) - max(a0, c0), min(b1, d1) - max(b0, d0)
    if across <= _OVERLAP or up <= _OVERLAP:
        return False
    near = [p for p in one.outline if c0 <= p[0] <= c1 and d0 <= p[1] <= d1]
    return any((x - a) ** 2 + (y - b) ** 2 < _OVERLAP**2 for x, y in near for a, b in other.outline)


def faults(some: Sequence[Pair], folder: Path, program: Path | None = None) -> list[str]:
    """What is wrong with these pairs on the page."""
    found = []
    for number, group in enumerate(batched(engraved(some), _EACH)):
        scores = [score(ly, MARKED, r"\gsPicture ragged-right = ##t") for _, _, ly in group]
        here = folder / str(number)
        here.mkdir(parents=True, exist_ok=True)
        (here / "names.txt").write_text("".join(f"{pair.name}\n" for pair, _, _ in group), "utf-8")
        svg = run(document(scores, '\\include "sheet.ily"\n'), here, program)
        printed = staves(svg, (*KEPT_CLEAR, *OURS))
        for (pair, music, _), staff in zip(group, printed, strict=True):
            found += [f"{pair.name}: nothing shows {key}" for key in unsaid(pair, music)]
            found += [f"{pair.name}: {what}" for what in dict.fromkeys(touching(staff))]
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--every", type=int, default=1)
    asked = parser.parse_args()
    some = pairs()[:: asked.every]
    found = faults(some, asked.folder)
    print("\n".join(found))
    print(f"{len(some)} pairs, {len(found)} faults")
    sys.exit(1 if found else 0)


if __name__ == "__main__":
    main()
