"""Gesture files generated from a seed: techniques of every layer, points with everything that may follow them,
passages and exercises, combined as a composer would, so that much of it can be played."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from gesturesmith import techniques
from gesturesmith.lang.words import MARKS, MUTES, NOTEHEADS
from gesturesmith.techniques.base import Technique, clash

INSTRUMENTS = {
    "horn": ("G4 A4 Bb4 B4 C5 D5 Eb5 E5 F5 F#5 G5", "written"),
    "trumpet": ("C4 D4 Eb4 E4 F4 G4 Ab4 A4 C5 D5", "written"),
    "trombone": ("Bb2 C3 D3 Eb3 F3 F#3 G3 A3 Bb3", "written"),
    "tuba": ("C2 D2 Eb2 F2 G2 A2 Bb2 C3 D3", "written"),
}
_TECHNIQUES = tuple(techniques.get(name) for name in techniques.names() if name != "ordinary")
_LEVELS = ("pp", "p", "mp", "mf", "f", "ff")
_ORDERS = ("easiest first", "hardest first", "as listed", "mixed")


class _Maker:
    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.instrument = self.random.choice(tuple(INSTRUMENTS))
        self.notes = INSTRUMENTS[self.instrument][0].split()
        self.pitched: list[str] = []  # gestures that can be transposed
        self.in_seconds = False  # whether any gesture is: passages that play it have no bars

    def maybe(self, share: float) -> bool:
        return self.random.random() < share

    def file(self) -> Iterator[str]:
        choice = self.random.choice
        yield f"instrument: {self.instrument}\npitches: {INSTRUMENTS[self.instrument][1]}"
        settings = {
            "tempo": choice(('"Calm" 60', "72", "90")), "title": '"A title"', "subtitle": '"Below"',
            "composer": '"Nobody"', "part": '"First"', "wording": choice(("en", "de", "en, it")),
            "words": choice(("international", "language")),
            "meter": "free", "heights": choice(("auto", "band", "lines")),
            "accidentals": choice(("stein", "arrows")), "fingerings": choice(("needed", "all", "none")),
            "paper": choice(("a4", "letter")), "staff": choice(("6", "7 mm")),
        }  # fmt: skip
        yield from (f"{key}: {value}" for key, value in settings.items() if self.maybe(0.3))
        names = [f"g{n}" for n in range(1, 4)]
        for name in names:
            yield from self.gesture(name)
        if self.maybe(0.6):
            yield from self.passage(names)
        if self.maybe(0.3):
            yield from self.exercises(choice(self.pitched) if self.pitched else "")

    def gesture(self, name: str) -> Iterator[str]:
        choice, maybe = self.random.choice, self.maybe
        asked = self.asked()
        yield f"gesture {name}" + (f' "Called {name}"' if maybe(0.3) else "")
        if asked or maybe(0.1):
            yield f"  technique: {' + '.join(t.key for t in asked) or 'ordinary'}"
        count, contour, own_levels = self.contour(asked)
        if "band" not in contour:
            self.pitched.append(name)
        yield f"  contour: {contour}"
        if maybe(0.7):
            unit = "beats" if maybe(0.85) else "s"
            self.in_seconds = self.in_seconds or unit == "s"
            yield f"  lasts: {2 * count} {unit}"
        if not own_levels and maybe(0.7):
            yield f"  dynamics: {self.dynamics(count)}"
        if maybe(0.12):
            detached = 1 + contour.count(",")
            shape = choice(("", " accelerating", " slowing")) if "@" not in contour else ""
            yield f"  attacks: {detached if detached > 1 or '--' in contour else 4}{shape}"
        keys = {
            "mute": choice(MUTES), "fingering": choice(("auto", "held", "0", "1-2", "1")),
            "notehead": choice(NOTEHEADS), "text": '"Some words"', "footnote": '"In other words."',
            "note": '"And more."', "fallback": choice(("ordinary", "growl", "flutter-tongue", "lip-gliss")),
            "allow": f'{choice(("outside-usual-range", "effect-too-loud", "line-without-technique"))} "agreed"',
        }  # fmt: skip
        yield from (f"  {key}: {value}" for key, value in keys.items() if maybe(0.12))
        if (any(t.sings for t in asked) and maybe(0.7)) or maybe(0.03):
            yield f"  sing: {choice(('C4', 'C4 -- D4', 'D4, E4@1'))}"

    def asked(self) -> list[Technique]:
        found: list[Technique] = []
        for _ in range(self.random.choice((0, 1, 1, 2, 2))):
            one = self.random.choice(_TECHNIQUES)
            if not any(clash(one, other) for other in found):
                found.append(one)
        return found

    def contour(self, asked: list[Technique]) -> tuple[int, str, bool]:
        choice, maybe = self.random.choice, self.maybe
        least = max([1, *(2 for t in asked if t.needs_line), *(t.points[0] for t in asked)])
        most = min([5, *(t.points[1] or 5 for t in asked)])
        count = self.random.randint(least, max(least, most))
        slides = any(t.needs_line for t in asked)
        heights = maybe(0.15) or any(t.pitched == "none" for t in asked)
        vague = any(t.pitched == "about" for t in asked)
        levels = maybe(0.3)
        text = ""
        for n in range(count):
            if n:
                line = (
                    choice(("--", "~~", "~~ growing", "~~ fading", "::", "..", "->"))
                    if slides or maybe(0.25)
                    else ","
                )
                text += ", " if line == "," else f" {'__' if not slides and maybe(0.2) else line} "
            if n and line == "," and n < count - 1 and maybe(0.08):
                text += "r, "
            if heights:
                text += choice(("low", "mid", "high", "35%", "highest", "lowest"))
            else:
                text += ("x" if vague or maybe(0.1) else "") + choice(self.notes)
            if n and maybe(0.2):
                text += f"@{n}"
            text += self.words(levels, asked)
        return count, text + ("\n  band: middle" if heights or maybe(0.05) else ""), levels

    def words(self, levels: bool, asked: list[Technique]) -> str:
        choice, maybe = self.random.choice, self.maybe
        text = f" {choice(MARKS)}" if maybe(0.12) else ""
        text += f" {choice(_LEVELS)}" if levels and maybe(0.5) else ""
        if maybe(0.12):
            text += f" as {choice((*(t.key for t in _TECHNIQUES), *['ordinary'] * 12, 'muted + bells-up'))}"
        elif asked and maybe(0.1):
            text += f" without {choice(asked).key}"
        return text

    def dynamics(self, count: int) -> str:
        text = self.random.choice(_LEVELS)
        for n in range(self.random.choice((0, 0, 1, 2))):
            text += f" {self.random.choice('<>')} {self.random.choice(_LEVELS)}" + (
                f"@{n + 1}" if n + 1 < count else ""
            )
        return text

    def item(self, names: list[str]) -> str:
        choice = self.random.choice
        name, note = choice(names), choice(self.notes)
        moved = (f"{choice(self.pitched)} up M2", f"{choice(self.pitched)} down 1") if self.pitched else ()
        notes = (
            f"{note} for 2 {choice(_LEVELS)}",
            f"{note} for 1 as flutter-tongue",
            f"{note} tenuto for 3/2 beats",
        )
        return choice((name, name, name, *moved, *notes, "rest 2", "rest 3 beats"))

    def passage(self, names: list[str]) -> Iterator[str]:
        choice = self.random.choice
        items = [self.item(names) for _ in range(4)]
        yield 'passage p "Together"'
        yield f"  play: {', '.join(items)}"
        for key, value in (
            ("repeat", choice("123")),
            ("tempo", choice(("60", '"Go" 80'))),
            ("meter", choice(("4/4", "free", "3/4")) if not self.in_seconds else "free"),
        ):
            if self.maybe(0.4):
                yield f"  {key}: {value}"

    def exercises(self, name: str) -> Iterator[str]:
        if not name:
            return
        choice = self.random.choice
        yield f'exercises e "Every day"\n  from: {name}'
        keys = {
            "start": f"{self.notes[0]}..{self.notes[3]} by 1", "lasts": "4, 3 beats", "tempo": "60, 72",
            "dynamics": "p, mf", "stretch": "1, 3/2", "mirror": choice(("yes", "no")), "order": choice(_ORDERS),
            "keep": choice(("3", "all", "one page")), "times": "2", "fingerings": "all",
            "meter": choice(("free" if self.in_seconds else "3/4", "free")), "instruction": '"Slowly at first."',
        }  # fmt: skip
        yield from (f"  {key}: {value}" for key, value in keys.items() if self.maybe(0.4))


def made(seed: int) -> str:
    """The file of a seed."""
    return "\n".join(_Maker(seed).file()) + "\n"
