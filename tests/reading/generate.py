"""Generated files for the reader: passages in many meters, full of difficult cases. The same seed gives the same
file."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from gesturesmith.model.reading import read
from gesturesmith.source import Source

METERS = ("2/4", "3/4", "4/4", "5/4", "6/8", "7/8", "free")
_LOWEST = {"horn": 3, "trumpet": 4, "trombone": 3, "tuba": 2}  # octave of most notes
_SIGNS = ("", "", "/", "#", "#\\", "b", "b", "^", "v", "#^", "bv", "##", "bb")
_LENGTHS = ("1/4", "1/2", "1/2", "3/4", "1", "1", "1", "3/2", "2", "5/2", "3", "4", "5", "7/2", "1/8", "7/4")


def file(seed: int) -> str:
    """A file with a few gestures and a passage that plays them between notes and rests."""
    random = Random(seed)
    instrument = random.choice(tuple(_LOWEST))
    made = _Maker(random, _LOWEST[instrument])
    gestures = [made.gesture(f"g{n}") for n in range(random.randint(1, 3))]
    items = made.items([f"g{n}" for n in range(len(gestures))])
    meter = METERS[seed % len(METERS)]
    if seed % 9 == 5:  # with its own random numbers, so that the other files stay the same
        more = _Maker(Random(seed), _LOWEST[instrument])
        gestures += [more.graces("gx"), more.strokes("gy")]
        items += ["gx", "gy"]
    if seed % 9 == 7:
        more = _Maker(Random(seed), _LOWEST[instrument])
        gestures += [more.intervals("gx"), more.free("gy")]
        items += ["gx", "gy"]
    if seed % 9 == 3:
        more = _Maker(Random(seed), _LOWEST[instrument])
        gestures += [more.trills("gx"), more.tremolos("gy"), *([more.pairs("gz")] if instrument == "horn" else [])]
        items += ["gx", "gy", *(["gz"] if instrument == "horn" else [])]
    head = [
        f"instrument: {instrument}",
        f"pitches: {random.choice(('written', 'written', 'sounding'))}",
        f"tempo: {'dotted quarter = ' if meter == '6/8' and seed % 2 else ''}{random.choice((60, 72, 96))}",
        f"meter: {meter}",
        f"accidentals: {random.choice(('stein', 'stein', 'arrows'))}",
    ]
    keys = ""
    if seed % 9 == 3:
        items, keys = _changing("\n".join([*head, *gestures]), items, meter, Random(seed))
    passage = f"passage p\n  play: {', '.join(items)}{keys}"
    if random.random() < 0.2:
        passage += f"\n  repeat: {random.choice((2, 3))}"
    return "\n".join([*head, "", *gestures, passage, ""])


_KEYS = ("none", "F major", "D minor", "Eb major", "E major", "B minor", "Ab major")


def _half_steps(name: str) -> int:
    """How high a note with at most whole accidentals is: `B3` and `Cb4` are one pitch."""
    return 12 * int(name[-1]) + "C D EF G A B".index(name[0]) + name.count("#") - name[1:].count("b")


def _changing(before: str, items: list[str], meter: str, random: Random) -> tuple[list[str], str]:
    """The items with changes between them, those of the meter and marks at bar lines; and keys of the passage."""
    whole = read(Source("alone", f"{before}\npassage p\n  play: {', '.join(items)}\n")).piece.passages[0]
    now = random.choice(_KEYS)
    key = f"\n  key: {now}"
    if len(whole.items) != len(items):
        return items, key
    pickup = random.choice((Fraction(0), Fraction(1, 2), Fraction(1))) if meter != "free" else Fraction(0)
    bar = Fraction(4 * int(meter[0]), int(meter[2])) if meter != "free" else Fraction(1)
    made, since, tempo = [], pickup, 60
    for text, item in zip(items, whole.items, strict=True):
        if item.at and (item.at - since) % bar == 0:
            marks = [f"mark {random.choice('ABCXYZ')}"] if random.random() < 0.4 else []
            if random.random() < 0.3:
                marks.append("double bar")
            if meter != "free" and random.random() < 0.5:
                meter = random.choice([m for m in ("2/4", "3/4", "6/8", "5/8", "4/4") if m != meter])
                marks.append(f"meter {meter}")
                count, unit = meter.split("/")
                bar, since = Fraction(4 * int(count), int(unit)), item.at
            if random.random() < 0.4:
                now = random.choice([k for k in _KEYS if k != now])
                marks.append(f"key {now}")
            made += marks
        if random.random() < 0.4:
            tempo = random.choice((48, 72, 100, 132))
            turn = f"tempo {tempo}"
            made.append(turn if item.at else f'tempo "Now" {tempo}')
        made.append(f"{text} fermata" if text.startswith("rest ") and random.random() < 0.5 else text)
    return made, key + (f"\n  pickup: {pickup} beats" if pickup and pickup < whole.beats else "")


def parts(seed: int) -> str:
    """A file with two or three parts and a passage in which each has a line of its own, equally long in bars."""
    random = Random(seed)
    names = random.sample(tuple(_LOWEST), random.choice((2, 2, 3)))
    meter = METERS[seed % len(METERS)]
    pitches = random.choice(("written", "written", "sounding"))
    head = [f"pitches: {pitches}", f"tempo: {random.choice((60, 72, 96))}", f"meter: {meter}"]
    gestures, lines = [], []
    for name in names:
        made = _Maker(random, _LOWEST[name])
        own = made.gesture(f"{name}-g")
        items = made.items([f"{name}-g"])
        play = f"passage p\n  play: {', '.join(items)}, {name}-g\n"
        alone = read(Source("alone", f"instrument: {name}\npitches: {pitches}\n{own}{play}")).piece
        gestures.append(own)
        lines.append((name, f"{', '.join(items)}, {name}-g", alone.passages[0].beats))
    longest = max(beats for _, _, beats in lines)
    blocks = [f'part {name} "{name} alone"\n  instrument: {name}' for name in names]
    rows = [
        f"  {name}: {line}{f', rest {longest - beats}' if beats < longest and meter != 'free' else ''}"
        for name, line, beats in lines
    ]
    if random.random() < 0.2:
        rows.append(f"  repeat: {random.choice((2, 3))}")
    return "\n".join([*head, *blocks, "", *gestures, "passage p", *rows, ""])


_KINDS = (
    *("detached", "slurred", "line", "arrival", "attacks", "feathered", "each", "rests", "band", "run"),
    *("sung", "swell", "marked", "said"),
)
_SAID = ('say "f"', '"inside the bell"', "inhale", 'exhale say "ho"', '"off" say "sh"')
_WORDS = ("accent", "staccato", "tenuto", "marcato", "fermata")
_LEVELS = ("p < f", "f > p", "p < f > mp", "pp < mf@1 > p", "mf", "n < f", "f > n")


class _Maker:
    """Notes from only a few letters, so that altered ones recur in the same bar, the next, and the next octave."""

    def __init__(self, random: Random, octave: int) -> None:
        self._random = random
        self._octave = octave
        self._letters = random.sample("CDEFGAB", 3)

    def note(self, *, cents: bool = True) -> str:
        random = self._random
        sign = random.choice(_SIGNS)
        octave = self._octave + (random.random() < 0.4) - (random.random() < 0.06)
        if not cents:  # nor eighth tones, which have cents where arrows mean quarter tones
            sign = sign.rstrip("/\\")
        more = ""
        if cents and len(sign) < 2 and sign not in ("^", "v", "/") and random.random() < 0.06:
            more = random.choice(("+31c", "-14c", "+48c", "-52c", "+5c", "-45c", "+70c"))
        return f"{random.choice(self._letters)}{sign}{octave}{more}"

    def items(self, gestures: list[str]) -> list[str]:
        random = self._random
        items: list[str] = []
        while len(items) < random.randint(8, 22):
            kind = random.random()
            if kind < 0.12:
                items.append(f"rest {random.choice(_LENGTHS)}")
            elif kind < 0.3:
                move = random.choice(("", "", " up 1", " down 2", " up M2", " down m3", " up P8"))
                items.append(random.choice(gestures) + move)
            elif kind < 0.42:
                items += self._threes()
            elif kind < 0.5:
                items += self._tuplet()
            else:
                note = self.note()
                for _ in range(random.choice((1, 1, 1, 2, 3))):  # the same note again, or its neighbour
                    items.append(f"{note} for {random.choice(_LENGTHS)}{random.choice(('', '', ' p', ' accent'))}")
                    if random.random() < 0.4:
                        note = (
                            note.replace("#", "").replace("b", "").replace("^", "").replace("v", "").split("+")[0]
                        )
                        note = note.split("-")[0]
        return items

    def _threes(self) -> list[str]:
        """Three in the time of two, or of one; sometimes two of them are one note or a rest."""
        random = self._random
        part = random.choice((Fraction(1, 3), Fraction(1, 3), Fraction(2, 3), Fraction(1, 6)))
        lengths = random.choice(((1, 1, 1), (2, 1), (1, 2)))
        made = []
        for length in lengths:
            beats = part * length
            made.append(f"rest {beats}" if random.random() < 0.1 else f"{self.note(cents=False)} for {beats}")
        return made

    def strokes(self, name: str) -> str:
        """Notes that are repeated, between others that are not."""
        random = self._random
        text, at = "", Fraction(0)
        for n in range(random.randint(3, 6)):
            word = random.choice(("eighths", "sixteenths", "sixteenths", "thirty-seconds", "unmeasured", ""))
            text += f"{', ' if n else ''}{self.note()}{f'@{at}' if n else ''} {word}"
            at += random.choice((Fraction(1), Fraction(2), Fraction(3, 2), Fraction(3)))
        return f"gesture {name}\n  contour: {text}\n  lasts: {at} beats\n"

    def intervals(self, name: str) -> str:
        """Just intervals from one note, detached and slurred."""
        random = self._random
        of = f"{random.choice(self._letters)}{random.choice(('', '#', 'b'))}{self._octave}"
        ratios = ("5/4", "4/3", "3/2", "7/4", "11/8", "6/5", "9/8", "2", "13/8", "1/1")
        count = random.randint(2, 5)
        text = random.choice((", ", " __ ")).join(f"{random.choice(ratios)} of {of}" for _ in range(count))
        return f"gesture {name}\n  contour: {text}\n  lasts: {count} beats\n"

    def free(self, name: str) -> str:
        """Heights that are drawn by lot, between two that are not; sometimes only a suggestion."""
        random = self._random
        one, two = (f"x{self.note(cents=False)}" for _ in range(2))
        line = random.choice(("~~", "--"))
        lot = (
            f"random {random.randint(2, 5)} {line} in C{self._octave}..B{self._octave} seed {random.randint(0, 99)}"
        )
        text = f"{one}{random.choice((' ad lib', ''))} {line} {lot} {line} {two}"
        return (
            f"gesture {name}\n  technique: half-valve\n  contour: {text}\n  lasts: {random.randint(3, 8)} beats\n"
        )

    def graces(self, name: str) -> str:
        """Notes with grace notes before them, tongued and slurred, and sometimes at the end."""
        random = self._random
        text, slurred = "", False
        for n in range(random.randint(2, 4)):
            slurred = n > 0 and random.random() < 0.3
            text += " __ " if slurred else ", " if n else ""
            for _ in range(random.choice((0, 1, 1, 2, 3))):
                x = "x" if random.random() < 0.2 else ""
                mark = random.choice(("", "", " accent", " staccato"))
                join = " __ " if slurred else random.choice((", ", " __ "))
                text += f"{x}{self.note(cents=not x)} grace{mark}{join}"
            text += self.note()
        for _ in range(random.choice((0, 1, 2))):
            text += f"{random.choice((', ', ' __ '))}{self.note()} grace"
        return f"gesture {name}\n  contour: {text}\n  lasts: {random.randint(4, 8)} beats\n"

    def _plain(self) -> str:
        return f"{self._random.choice(self._letters)}{self._random.choice(('', '#', 'b'))}{self._octave + 1}"

    def trills(self, name: str) -> str:
        """Trills and shakes to an interval or the next note, on notes tongued, slurred and tied."""
        random = self._random
        technique = random.choice(("valve-trill", "lip-trill", "shake"))
        key = random.choice(("trill: half", "trill: whole", "trill: m3", "speed: slow < fast"))
        contour = random.choice((", ", " __ ")).join(self._plain() for _ in range(random.randint(1, 4)))
        beats = random.choice((3, 4, 5, Fraction(7, 2)))
        return f"gesture {name}\n  technique: {technique}\n  {key}\n  contour: {contour}\n  lasts: {beats} beats\n"

    def tremolos(self, name: str) -> str:
        """A tremolo to a note above or below, after one without."""
        random = self._random
        other = f"{random.choice('CDEFGAB')}{random.choice(('', '#', 'b'))}{self._octave + 1}"
        note = next(n for n in iter(self._plain, "") if _half_steps(n) != _half_steps(other))
        return (
            f"gesture {name}\n  tremolo: {other}\n  contour: {self._plain()} without tremolo, {note} as tremolo\n"
            f"  lasts: {random.randint(2, 6)} beats\n"
        )

    def pairs(self, name: str) -> str:
        """Timbre trills with both their fingerings."""
        pairs = self._random.sample(("F 0 / Bb 0", "F 1 / Bb 2", "F 1-2 / Bb 1", "F 0 / F 1-3"), 2)
        contour = f"{self._plain()}, {self._plain()}"
        return (
            f"gesture {name}\n  technique: timbre-trill\n  contour: {contour}\n  fingering: {', '.join(pairs)}\n"
            "  lasts: 4 beats\n"
        )

    def _tuplet(self) -> list[str]:
        """Five, six, seven, nine, ten or eleven in a beat or more, not all of them struck."""
        random = self._random
        count, beats = random.choice((5, 5, 6, 7, 9, 10, 11)), random.choice(("1/2", "1", "1", "2", "3/2", "4"))
        part, left, made = Fraction(beats) / count, count, []
        while left:
            length = min(left, random.choice((1, 1, 1, 2, 3)))
            left -= length
            name = "rest" if random.random() < 0.1 else f"{self.note(cents=False)} for"
            made.append(f"{name} {part * length}")
        return made

    def gesture(self, name: str) -> str:
        random = self._random
        lines = [f"gesture {name}"]
        kind = random.choice(_KINDS)
        count = random.randint(2, 5)
        if kind == "detached":
            beats = random.choice((count, count, 1, 2, 4))
            lines += [f"  contour: {', '.join(self.note() for _ in range(count))}", f"  lasts: {beats} beats"]
        elif kind == "slurred":
            joined = " __ ".join(self.note() for _ in range(count))
            lines += [
                f"  contour: {joined}",
                f"  lasts: {random.choice((count, 2 * count, Fraction(count, 2)))} beats",
            ]
        elif kind == "line":
            points = [f"x{self.note(cents=False)}" for _ in range(count)]
            line = random.choice((" ~~ ", " -- ", " :: ", " .. "))
            lines += [
                "  technique: half-valve",
                f"  contour: {line.join(points)}",
                f"  lasts: {random.randint(2, 6)} beats",
            ]
            lines.append("  dynamics: p < f")
        elif kind == "arrival":
            one, two, three = (f"x{self.note(cents=False)}" for _ in range(3))
            lines += [
                "  technique: half-valve",
                f"  contour: {one} ~~ {two}@{random.choice(('1', '3/2', '2'))}, {three}@3",
            ]
            lines.append("  lasts: 5 beats")
        elif kind in ("attacks", "feathered"):
            shape = f" {random.choice(('accelerating', 'slowing'))}" if kind == "feathered" else ""
            beats = random.choice((2, 3, 4))
            attacks = random.choice((beats, 2 * beats, 3 * beats, 4 * beats)) if not shape else random.randint(4, 8)
            lines += [
                f"  contour: {self.note(cents=False)}",
                f"  attacks: {attacks}{shape}",
                f"  lasts: {beats} beats",
            ]
        elif kind == "rests":
            one, two = self.note(), self.note()
            lines += [f"  contour: {one}, r@{random.choice(('1', '3/2', '1/2'))}, {two}@2", "  lasts: 4 beats"]
        elif kind == "band":
            octave = self._octave
            heights = random.sample(("low", "mid", "high", "35%", "80%", "highest", "lowest"), 3)
            lines += ["  technique: half-valve", f"  band: G{octave}..F{octave + 1}"]
            lines += [f"  contour: {' ~~ '.join(heights)}", "  lasts: 4 beats"]
        elif kind == "each":
            notes = [self.note() for _ in range(2 * count)]
            lines += [f"  contour: {', '.join(notes)}", f"  lasts: {count} beats"]
            lines.append(f"  attacks: {2 * count}{random.choice(('', ' accelerating', ' slowing'))}")
        elif kind == "sung":
            lines += ["  technique: multiphonic", f"  contour: {self.note(cents=False)}"]
            # An octave above everything played: two heads on one line would be a different case.
            sung = (f"{random.choice(self._letters)}{random.choice(_SIGNS)}" for _ in range(count))
            lines.append(f"  sing: {' -- '.join(f'{name}{self._octave + 2}' for name in sung)}")
            lines.append(f"  lasts: {2 * count} beats")
        elif kind == "swell":
            lines += [f"  contour: {', '.join(self.note() for _ in range(count))}", f"  lasts: {2 * count} beats"]
            lines.append(f"  dynamics: {random.choice(_LEVELS)}")
        elif kind == "marked":
            notes = [f"{self.note()} {random.choice(_WORDS)}" for _ in range(count)]
            lines += [f"  contour: {random.choice((', ', ' __ ')).join(notes)}", f"  lasts: {count} beats"]
        elif kind == "said":
            heads = [random.choice(("r", *[self.note()] * 3)) for _ in range(count)]
            covers = ("closed", "open", "half-closed")
            points = [f"{head} {random.choice(_SAID if head == 'r' else (*_SAID, *covers))}" for head in heads]
            lines += [f"  contour: {', '.join([f'{self.note()} as air', *points])}", f"  lasts: {count + 1} beats"]
        else:
            lines += [
                f"  contour: {', '.join(self.note(cents=False) for _ in range(2 * count))}",
                f"  lasts: {count} beats",
            ]
        return "\n".join(lines) + "\n"
