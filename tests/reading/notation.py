"""Reads a page as a player does: pitches, onsets and lengths from what is printed, by the rules of notation.

Nothing here knows how the page was made. The rules and their sources:

- accidentals: Gould, Behind Bars (2011), pp. 78-81: one holds for its line or space, at its own octave, up to the
  bar line; a tied note keeps it across the bar line. Without bars each applies to its note only, as the language
  page promises.
- quarter-tone signs: SMuFL 1.4, range "Stein-Zimmermann accidentals (24-EDO)" (E280 to E283) and Gould arrows
  (E270 to E275), by the names the LilyPond Notation Reference gives them.
- note values: head, stem, flags and beams, dots; a number over a tuplet: so many in the time of the next smaller
  power of two (MusicXML 4.0, `time-modification`).
- a bracketed small head shows where a line stops and is not attacked; a note that a slur or line reaches is not
  tongued (Gould pp. 110, 141). A head on a line with a stem of its own is attacked, the line's last apart.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from reading.dump import Grob

LETTERS = "CDEFGAB"
ALTERATION = {
    "accidentals.natural": Fraction(0),
    "accidentals.sharp": Fraction(1),
    "accidentals.flat": Fraction(-1),
    "accidentals.doublesharp": Fraction(2),
    "accidentals.flatflat": Fraction(-2),
    "accidentals.sharp.slashslash.stem": Fraction(1, 2),
    "accidentals.sharp.slashslash.stemstemstem": Fraction(3, 2),
    "accidentals.mirroredflat": Fraction(-1, 2),
    "accidentals.mirroredflat.flat": Fraction(-3, 2),
    "accidentals.natural.arrowup": Fraction(1, 2),
    "accidentals.natural.arrowdown": Fraction(-1, 2),
    "accidentals.sharp.arrowup": Fraction(3, 2),
    "accidentals.sharp.arrowdown": Fraction(1, 2),
    "accidentals.flat.arrowup": Fraction(-1, 2),
    "accidentals.flat.arrowdown": Fraction(-3, 2),
}
# The line named by a clef, in diatonic steps above C0: G4, F3, C4.
_CLEF_LINE = {"clefs.G": 32, "clefs.F": 24, "clefs.C": 28}
_OCTAVE = {"8": 7, "15": 14}
_FORMS = {"cross": "x", "harmonic": "diamond", "do": "triangle-up", "slash": "slash", "": "normal"}


_HEADS_APART = 2.0  # staff spaces: two heads beside each other on one stem are that far apart
_MARKS = {
    "scripts.sforzato": "accent",
    "scripts.staccato": "staccato",
    "scripts.tenuto": "tenuto",
    "scripts.umarcato": "marcato",
    "scripts.dmarcato": "marcato",
    "scripts.ufermata": "fermata",
    "scripts.dfermata": "fermata",
}


_THREE_STROKES = Fraction(1, 8)  # the value three strokes through the stem of a quarter note stand for
_OPENS, _CLOSES = "accidentals.leftparen", "accidentals.rightparen"
_HANDS = {"scripts.stopped": "+", "scripts.halfopen": "half", "scripts.open": "o"}


@dataclass(frozen=True)
class Heard:
    """A pitch as read: diatonic `steps` above C0, `alter` in semitones."""

    steps: int
    alter: Fraction
    eighth: Fraction | None = field(default=None, compare=False)  # the same where arrows stand for eighth tones

    @property
    def name(self) -> str:
        signs = {-2: "bb", -1.5: "bv", -1: "b", -0.5: "v", 0: "", 0.5: "^", 1: "#", 1.5: "#^", 2: "##"}
        octave, letter = divmod(self.steps, 7)
        return f"{LETTERS[letter]}{signs.get(float(self.alter), self.alter)}{octave}"

    @property
    def cents(self) -> Fraction:
        octave, letter = divmod(self.steps, 7)
        return 100 * ((0, 2, 4, 5, 7, 9, 11)[letter] + 12 * (octave + 1) + self.alter)


@dataclass(frozen=True)
class Note:
    """A played note: one head, or several tied ones.

    at         beats (quarter notes) from the beginning
    value      beats, by its note values; None if none is shown (no stem, or a feathered beam)
    pitch      None if the staff has no pitches
    position   half staff spaces from the staff's middle
    form       of the head: normal x diamond triangle-up triangle-down slash
    begins     attack | slur | line
    stops      a small head in brackets: where a line stops
    above      the pitches of other heads on the same stem
    cents      the text of the row above, "" for nothing
    marks      accent staccato tenuto marcato fermata
    sung       in the voice of small heads beside another
    repeats    beats of the note values that it is repeated in, by strokes through its stem; None without
    words      above it
    grace      "" | "slashed" | "plain": a small note outside the time; slashed through its stem or the flag
    """

    at: Fraction
    value: Fraction | None
    pitch: Heard | None
    position: float
    form: str
    begins: str
    stops: bool
    small: bool
    feathered: bool
    leaves_on_line: bool
    above: tuple[Heard, ...]
    cents: str
    sung: bool
    ends: Fraction
    marks: frozenset[str] = frozenset()
    ids: tuple[int, ...] = ()
    grace: str = ""
    repeats: Fraction | None = None
    words: str = ""


@dataclass
class Reading:
    """A score as read.

    notes      of each voice in order; the played voice first
    prepared   the small notes before the meter, as names
    meter      (beats, unit), or None
    bars       moments of the printed bar lines, in beats
    silences   stretches filled by rests, joined
    levels     (moment, level)
    hairpins   (start, end, "<" or ">"); an end that nobody can place is None
    frames     (start, end) of each box round notes
    repeated_on  (start, end, words) of each line with an arrow through which a box is repeated
    tempo      quarter notes a minute, where a metronome mark says so
    repeated   how often it is played, by the sign and the words over it
    texts      words above the staff, with their moments
    signs      (moment, kind, text): a "syllable" below the staff, "breath" in or out
    trills     (moment, whether it has a sign, the other note or None)
    fingers    (moment, text) below the staff
    hands      (moment, sign): + o half over notes
    lyrics     texts under the staff by moment
    label      the text at the left of the staff
    numbers    of bars, with their moments
    pickup     beats of a short first bar; `key`: sharps, or flats below 0, of the first key signature
    changes    (moment, kind, text) of what changes later, and of marks at places
    faults     anything unreadable or contradictory
    """

    notes: list[Note] = field(default_factory=list)
    prepared: list[Heard] = field(default_factory=list)
    meter: tuple[int, int] | None = None
    bars: list[Fraction] = field(default_factory=list)
    silences: list[tuple[Fraction, Fraction]] = field(default_factory=list)
    levels: list[tuple[Fraction, str]] = field(default_factory=list)
    hairpins: list[tuple[Fraction | None, Fraction | None, str]] = field(default_factory=list)
    frames: list[tuple[Fraction | None, Fraction | None]] = field(default_factory=list)
    repeated_on: list[tuple[Fraction | None, Fraction | None, str]] = field(default_factory=list)
    tempo: Fraction | None = None
    repeated: int = 1
    lyrics: list[tuple[Fraction, str]] = field(default_factory=list)
    texts: list[tuple[Fraction, str]] = field(default_factory=list)
    signs: list[tuple[Fraction, str, str]] = field(default_factory=list)
    trills: list[tuple[Fraction, bool, Heard | None]] = field(default_factory=list)
    fingers: list[tuple[Fraction, str]] = field(default_factory=list)
    hands: list[tuple[Fraction, str]] = field(default_factory=list)
    label: str = ""
    numbers: list[tuple[Fraction, int]] = field(default_factory=list)
    pickup: Fraction = Fraction(0)
    key: int = 0
    changes: list[tuple[Fraction, str, str]] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    heads: int = 0


def read(grobs: list[Grob], *, without: str = "") -> Reading:
    """A score with one staff (and lyrics below it, in a chart); `without` names a voice to ignore."""
    grobs = [g for g in grobs if not without or g.voice_name != without]
    staves = sorted({g.staff for g in grobs if g.name == "NoteHead"})
    if len(staves) != 1:
        return Reading(faults=[f"{len(staves)} staves with notes"])
    return _Reader([g for g in grobs if g.staff in (staves[0], 0)], grobs).reading


def out_of_line(grobs: list[Grob]) -> list[str]:
    """Heads of one moment that do not stand under each other in the staves of a system."""
    places: dict[tuple[int, Fraction], list[float]] = {}
    for g in grobs:
        if g.name == "NoteHead" and g.drawn and g.at is not None and not g.grace:
            places.setdefault((g.system, g.at), []).append(g.x)
    wide = _HEADS_APART
    return [
        f"heads at beat {float(at):g} stand {max(x) - min(x):.1f} apart"
        for (_, at), x in places.items()
        if max(x) - min(x) > wide
    ]


def meters_again(grobs: list[Grob]) -> list[str]:
    """Time signatures that one staff has twice at one moment, as before and after grace notes of another."""
    places = Counter((g.staff, g.system, g.at) for g in grobs if g.name == "TimeSignature" and g.drawn)
    return [f"the meter stands {count} times at beat {at}" for (_, _, at), count in places.items() if count > 1]


def read_staves(grobs: list[Grob]) -> list[Reading]:
    """A score with several staves, each read by itself; its name is its label."""
    staves = sorted({g.staff for g in grobs if g.staff})
    return [_Reader([g for g in grobs if g.staff in (staff, 0)], grobs).reading for staff in staves]


class _Reader:
    """Reads one staff."""

    def __init__(self, mine: list[Grob], everything: list[Grob]) -> None:
        self.reading = Reading()
        self._grobs = sorted((g for g in mine if g.drawn), key=lambda g: (g.system, g.x))
        self._by_id = {g.id: g for g in self._grobs}
        self._meter()
        self._links()
        self._boxes()
        self._sung_voices = self._find_sung()
        self._walk()
        self._join()
        self._check_bars()
        self._check_lengths()
        self.reading.levels = sorted((g.at, g.text) for g in self._named("DynamicText") if g.at is not None)
        self.reading.hairpins = self._hairpins()
        self.reading.tempo = next((_tempo(g) for g in self._named("MetronomeMark")), None)
        self.reading.repeated = self._repeats()
        self.reading.numbers = [(g.at, int(g.text)) for g in self._named("BarNumber") if g.at is not None]
        words = self._named("GestureWords", "GestureNotedWords")
        self.reading.texts = [(g.at, t) for g in words if g.at is not None for _, _, k, t in g.drawn if k == "text"]
        self.reading.signs = sorted(self._signs())
        self.reading.hands = sorted(self._hands())
        self.reading.trills = self._trills()
        self.reading.fingers = sorted(self._fingers())
        self.reading.changes = sorted(set(self._changes(everything)))
        self.reading.label = " ".join(g.text for g in self._named("InstrumentName"))
        self.reading.lyrics = [
            (g.at, g.text)
            for g in sorted(everything, key=lambda g: g.voice)
            if g.name == "LyricText" and g.at is not None and g.drawn
        ]

    def _named(self, *names: str) -> list[Grob]:
        return [g for g in self._grobs if g.name in names]

    # --- what belongs together -------------------------------------------------------------------------------

    def _links(self) -> None:
        self._stem_of = {h: g for g in self._named("Stem") for h in g.more["heads"]}
        self._flags = {g.id: g for g in self._named("Flag")}
        self._beams = {g.id: g for g in self._named("Beam")}
        self._dots = {g.id: g.more["count"] for g in self._named("Dots")}
        self._factor: dict[int, Fraction] = {}
        for g in self._named("TupletNumber"):
            for thing in g.more.get("over", ()):
                self._factor[thing] = self._factor.get(thing, Fraction(1)) * _tuplet(g.text)
        self._tied_from: dict[int, int] = {}
        for g in self._named("Tie"):
            for start, end in zip(g.more["from"], g.more["to"], strict=False):
                self._tied_from[end] = start
        around = self._named("GestureBracket")
        self._bracketed = {h for g in around if not g.more["round"] for h in g.more["heads"]}
        self._ghosts = {h for g in around if g.more["round"] for h in g.more["heads"]}
        self._reached: dict[int, str] = {}
        self._on_line: set[int] = set()  # heads from which a line leaves
        order = {g.id: n for n, g in enumerate(self._grobs)}
        for g in self._named("Slur"):
            self._slurred(g, order)
        lines: dict[int, set[int]] = {}  # a broken line has a piece on each system
        for g in self._named("GestureContour"):
            lines.setdefault(g.id, set()).update(h for h in g.more["heads"] if h in order)
        for row in lines.values():
            heads = sorted(row, key=self._place)
            self._on_line.update(heads[:-1])
            for head in heads[1:]:
                inside = head != heads[-1]
                stem = self._stem_of.get(head)
                if not (inside and stem is not None):
                    self._reached[head] = "line"
        self._cents = {}
        for g in self._named("GestureRowText"):
            if "¢" in g.text:
                self._cents[(g.voice, g.at, g.grace)] = g.text
        self._strokes = {
            (g.voice, g.at, g.grace): sum(kind == "shape" for _, _, kind, _ in g.drawn)
            for g in self._named("StemTremolo")
        }
        self._words = {(g.voice, g.at): g.text for g in self._named("GestureWords", "GestureNotedWords")}
        self._marks: dict[tuple[int, Fraction | None, Fraction], set[str]] = {}
        for g in self._named("Script"):
            marks = {_MARKS[n] for n in g.glyphs if n in _MARKS}
            self._marks.setdefault((g.voice, g.at, g.grace), set()).update(marks)

    def _boxes(self) -> None:
        """Frames round what is repeated, and the arrows after them; a broken one has its words first."""
        for name, into in (("GestureFrame", self.reading.frames), ("GestureGoesOn", self.reading.repeated_on)):
            for g in {g.id: g for g in reversed(self._named(name))}.values():
                ends = tuple(
                    t - self._origin if t is not None else None for t in (g.moment("starts"), g.moment("ends"))
                )
                into.append(ends if name == "GestureFrame" else (*ends, g.text))
            into.sort(key=lambda one: one[0] if one[0] is not None else -1)

    def _place(self, head: int) -> tuple[int, float]:
        return (self._by_id[head].system, self._by_id[head].x)

    def _slurred(self, slur: Grob, order: dict[int, int]) -> None:
        starts = [h for h in slur.more["from"] if h in order]
        ends = [h for h in slur.more["to"] if h in order]
        if not starts or not ends:
            self.reading.faults.append("a slur that begins or ends at no note")
            return
        first, last = min(map(self._place, starts)), max(map(self._place, ends))
        voice = self._by_id[starts[0]].voice
        for g in self._named("NoteHead"):
            if g.voice == voice and first < (g.system, g.x) <= last and g.id not in starts:
                self._reached.setdefault(g.id, "slur")

    def _find_sung(self) -> set[int]:
        """Voices of only small heads that run beside another: sung lines."""
        voices: dict[int, list[Grob]] = {}
        for g in self._named("NoteHead"):
            if not self._before_meter(g):
                voices.setdefault(g.voice, []).append(g)
        small = {v for v, heads in voices.items() if all(h.more["size"] < -1 for h in heads)}
        return {v for v in small if any(_together(voices[v], voices[o]) for o in voices.keys() - small)}

    def _sung(self, g: Grob) -> bool:
        return g.voice in self._sung_voices

    def _changes(self, everything: list[Grob]):
        """New meters, keys and tempos, rehearsal marks, double bar lines, and dashed lines with accel. or rit."""
        signed = {g.at for g in self._named("KeySignature")}
        key = self.reading.key
        for g in self._grobs:
            if g.at is None or g.at <= 0:
                continue
            if g.name == "TimeSignature":
                yield g.at, "meter", "{}/{}".format(*(_time(g) or ()))
            elif g.name == "KeySignature" and _signs_of(g) != key:  # else it is that of a new line
                key = _signs_of(g)
                yield g.at, "key", str(key)
            elif g.name == "KeyCancellation" and g.at not in signed:
                key = 0
                yield g.at, "key", "0"
            elif g.name == "RehearsalMark":
                yield g.at, "mark", g.text
            elif g.name == "BarLine" and g.more["glyph"] == "||":
                yield g.at, "double", ""
            elif g.name == "MetronomeMark" and (found := _tempo(g)) is not None:
                yield g.at, "tempo", f"{float(found):g}"
        # They stand above the highest staff, for all.
        for g in {g.id: g for g in reversed(everything) if g.name == "TextSpanner" and g.drawn}.values():
            start, end = (g.moment(name) for name in ("starts", "ends"))
            if start is not None and end is not None:
                # At the end of the music it ends an instant before.
                yield start, "gradually", f"{g.text[:3]} {float(end + _SHORT if end % 1 else end):g}"

    def _hairpins(self) -> list[tuple[Fraction | None, Fraction | None, str]]:
        found = []
        for g in {g.id: g for g in self._named("Hairpin")}.values():
            bounds = [t - self._origin if t is not None else None for t in (g.moment("starts"), g.moment("ends"))]
            found.append((bounds[0], bounds[1], "<" if g.more["grows"] > 0 else ">"))
        return sorted(found, key=lambda h: h[0] or 0)

    def _signs(self) -> Iterator[tuple[Fraction, str, str]]:
        """Syllables below the staff; arrows with a bar for the lips: to it the air goes in, away from it out."""
        for g in self._named("GestureRowText"):
            if g.at is None or "¢" in g.text:
                continue
            if not g.more["above"] and g.text and not g.more["sans"]:
                yield g.at, "syllable", g.text
            elif g.more["above"] and not g.text:  # an arrow
                lips = next(x for x, y, _, what in g.drawn if what == "draw-line" and y < 0)
                tip = next(x for x, _, kind, _ in g.drawn if kind == "path")
                yield g.at, "breath", "in" if lips > tip else "out"

    def _hands(self) -> Iterator[tuple[Fraction, str]]:
        """+ o and half over notes, and at both ends of an arrow."""
        for g in self._named("Script"):
            yield from ((g.at, _HANDS[n]) for n in g.glyphs if n in _HANDS and g.at is not None)
        for g in self._named("GestureAbove"):
            if len([w for w in g.glyphs if w in _HANDS]) > 2:
                continue  # to and fro, as often as the player likes
            signs = sorted((x, _HANDS[what]) for x, _, kind, what in g.drawn if kind == "glyph" and what in _HANDS)
            ends = [g.moment("starts"), g.moment("ends")][2 - len(signs) :]  # two arrows in a row share a sign
            yield from ((at, sign) for at, (_, sign) in zip(ends, signs, strict=True) if at is not None)

    def _trills(self) -> list[tuple[Fraction, bool, Heard | None]]:
        """Trills by their sign, its accidental for the next note up; or the other note in a small head in
        parentheses, which is none of the music."""
        signs: dict[Fraction, Grob] = {}
        for g in self._named("Script", "GestureAbove"):
            at = g.at if g.name == "Script" else g.moment("starts")
            if at is not None and "scripts.trill" in g.glyphs:
                signs.setdefault(at if g.name == "Script" else at - self._origin, g)
        found = []
        for at in sorted({*signs, *self._seconds}):
            other = self._seconds.get(at)
            if other is None:
                note = next((n for n in self.reading.notes if n.at == at and not n.sung and not n.grace), None)
                alters = [ALTERATION[name] for name in signs[at].glyphs if name in ALTERATION]
                if alters and note is not None and note.pitch is not None:
                    other = Heard(note.pitch.steps + 1, alters[0])
            found.append((at, at in signs, other))
        return found

    def _fingers(self) -> Iterator[tuple[Fraction, str]]:
        for g in self._named("GestureRowText"):
            if g.at is not None and not g.more["above"] and g.more["sans"]:
                yield g.at, " ".join(g.text.replace("B ♭", "Bb").split())

    def _repeats(self) -> int:
        """Twice if a repeat sign ends it, unless it says how often (Gould p. 234)."""
        if not any(g.more["glyph"].startswith(":|") for g in self._named("BarLine")):
            return 1
        words = [g.text.split()[0] for g in self._named("TextMark") if g.text]
        return next((int(w) for w in words if w.isdigit()), 2)

    # --- meter and bars --------------------------------------------------------------------------------------

    def _meter(self) -> None:
        signs, broken = self._named("TimeSignature"), [g for g in self._named("BarLine") if g.more["glyph"] == "!"]
        # Where the music begins; small notes may precede it, up to a broken bar line.
        self._begins: tuple[int, float] | None = None
        self._origin = Fraction(0)
        if broken:
            self._begins = (broken[0].system, broken[0].x)
            self._origin = broken[0].at or Fraction(0)
            self._grobs = [replace(g, at=g.at - self._origin) if g.at is not None else g for g in self._grobs]
            self._by_id = {g.id: g for g in self._grobs}
        if not signs:
            return
        self.reading.meter = _time(signs[0])
        self._meters = {g.at: _time(g) for g in sorted(signs, key=lambda g: g.at or 0) if g.at is not None}
        if self.reading.meter is None:
            self.reading.faults.append(f"a time signature that says {signs[0].text!r}")

    def _before_meter(self, g: Grob) -> bool:
        """Whether something is before the music, in the small notes of a preparation."""
        return self._begins is not None and (g.system, g.x) < self._begins

    # --- pitches -----------------------------------------------------------------------------------------------

    def _walk(self) -> None:
        """Everything from left to right: clefs, keys, accidentals, bar lines, heads."""
        clef: int | None = None
        has_clef = False
        key: dict[int, Fraction] = {}
        held: dict[int, Fraction] = {}
        fine: dict[int, Fraction | None] = {}  # eighth tones, by arrows
        system = 0
        kept: dict[int, Fraction] = {}  # alteration of each head, for ties
        self._notes: list[tuple[Grob, Heard | None]] = []
        waiting: list[Grob] = []
        self._seconds: dict[Fraction, Heard] = {}
        modifiers = {(g.system, round(g.x)): g for g in self._named("ClefModifier")}
        for g in self._grobs:
            if g.system != system:
                system, has_clef, clef = g.system, False, None
            if g.name in ("Clef", "CueClef", "CueEndClef"):
                clef, has_clef = self._clef(g, modifiers), True
            elif g.name == "KeyCancellation":
                key = {}
            elif g.name == "KeySignature":
                key = self._key(g, clef)
                if g.at == 0:
                    self.reading.key = _signs_of(g)
            elif g.name == "BarLine":
                held, fine = {}, {}
                if g.at is not None and g.more["glyph"] != "!" and g.at > 0:
                    self.reading.bars.append(g.at)
            elif g.name in ("Accidental", "AccidentalCautionary"):
                waiting.append(g)
            elif g.name == "GestureSecond":
                place = next(y for _, y, _, what in g.drawn if what.startswith("noteheads."))
                alters = [ALTERATION[name] for name in g.glyphs if name in ALTERATION]
                if clef is None or len(alters) > 1 or not {_OPENS, _CLOSES} <= set(g.glyphs):
                    self.reading.faults.append(f"a second note of a trill that cannot be read, at beat {g.at}")
                elif g.at is not None:
                    steps = clef + round(2 * place)
                    other = alters or [held.get(steps, key.get(steps % 7, Fraction(0)))]
                    self._seconds[g.at] = Heard(steps, other[0])
            elif g.name == "NoteHead":
                if not has_clef:
                    self.reading.faults.append(f"a note without a clef on line {g.system}")
                    has_clef = True
                steps = None if clef is None else clef + round(g.y or 0)
                if clef is not None and abs((g.y or 0) - round(g.y or 0)) > 0.05:
                    self.reading.faults.append(f"a head between a line and a space, at {g.y}")
                signs = [a for a in waiting if _belongs(a, g)]
                waiting = [a for a in waiting if a not in signs]
                if steps is None:
                    self._notes.append((g, None))
                    if signs:
                        self.reading.faults.append("an accidental where there are no pitches")
                    continue
                alter = key.get(steps % 7, Fraction(0))
                source = self._tied_from.get(g.id)
                if signs:
                    alter = _alteration(signs[-1], self.reading.faults)
                    if self.reading.meter is not None and source is None:
                        held[steps] = alter
                elif source in kept:
                    alter = kept[source]
                elif self.reading.meter is not None:
                    alter = held.get(steps, alter)
                kept[g.id] = alter
                if signs or self.reading.meter is None:
                    fine[steps] = _eighth(signs[-1]) if signs else None
                self._notes.append((g, Heard(steps, alter, fine.get(steps))))
        self.reading.faults += [f"an accidental that belongs to no note, at beat {a.at}" for a in waiting]
        self.reading.heads = len(self._notes)

    def _clef(self, g: Grob, modifiers: dict) -> int | None:
        """Steps of the staff's middle line."""
        name = next((n for n in g.glyphs if n.startswith("clefs.")), "")
        name = name.removesuffix("_change")
        if name not in _CLEF_LINE:
            return None
        middle = _CLEF_LINE[name] - round(g.y or 0)
        for (system, _), modifier in modifiers.items():
            if system == g.system and abs(modifier.x - g.x) < 2.5:
                shift = _OCTAVE.get(modifier.text.strip("()[] "), 0)
                middle += shift if modifier.drawn[0][1] > 0 else -shift
        return middle

    def _key(self, g: Grob, clef: int | None) -> dict[int, Fraction]:
        found = {}
        for _, y, kind, what in g.drawn:
            if kind == "glyph" and what in ALTERATION and clef is not None:
                found[(clef + round(2 * y + (g.y or 0))) % 7] = ALTERATION[what]
        return found

    # --- note values and time -------------------------------------------------------------------------------------

    def _join(self) -> None:
        """Notes of tied heads, chords and rests; faults for time that the printed values leave unaccounted for."""
        # There may be many successive voices, but only two at once: the sung line beside the played one.
        voices: dict[int, list[tuple[Grob, Heard | None]]] = {}
        for g, pitch in self._notes:
            if self._before_meter(g):
                if pitch is not None:
                    self.reading.prepared.append(pitch)
            else:
                voices.setdefault(g.voice if self._sung(g) else 0, []).append((g, pitch))
        ends = list(self.reading.bars)
        last = max([*ends, *(g.at for g in self._grobs if g.at is not None)], default=Fraction(0))
        silent: list[tuple[Fraction, Fraction]] = []
        for voice, found in voices.items():
            # A sung line ends with its voice, without rests.
            end = last if not voice else max(g.at + (self._value(g)[0] or 0) for g, _ in found if g.at is not None)
            notes, rests = self._voice(found, self._rests(bool(voice)), end)
            self.reading.notes += notes
            silent += rests
        self.reading.notes.sort(key=lambda n: (n.sung, n.at))
        self.reading.silences = _joined(silent)

    def _rests(self, sung: bool) -> list[tuple[Fraction, Fraction | None]]:
        """Moment and value of each rest; None under a bracket that gives the length."""
        found = []
        said = [
            (g.moment("starts"), g.moment("ends")) for g in self._named("GestureAbove") if _stated(g) is not None
        ]
        for g in self._named("Rest"):
            if self._sung(g) is sung and g.at is not None and not self._before_meter(g):
                here = g.at + self._origin
                under = [True for a, b in said if a is not None and a <= here and (b is None or here < b)]
                if under:
                    found.append((g.at, None))
                    continue
                value = _rest_value(g, self._dots) * self._factor.get(g.id, Fraction(1))
                found.append((g.at, value))
        for g in self._named("MultiMeasureRest"):
            if self._sung(g) is sung and self.reading.meter is not None:
                start = self._bar_before(g)
                meter = [m for at, m in self._meters.items() if at <= start][-1]
                length = self._bars_of(g) * Fraction(4 * meter[0], meter[1])
                found.append((start, length))
        return sorted(found, key=lambda rest: rest[0])

    def _bars_of(self, rest: Grob) -> int:
        """The number of bars of a rest: the number over it, else one (Gould p. 564)."""
        count = [n.text for n in self._named("MultiMeasureRestNumber") if _over(n, rest)]
        return int(count[0]) if count else 1

    def _bar_before(self, g: Grob) -> Fraction:
        """The start of the bar of a whole-bar rest."""
        lines = [b for b in self._named("BarLine") if (b.system, b.x) < (g.system, g.x) and b.at is not None]
        after = [b.at for b in lines if b.at is not None and b.at > 0]
        return after[-1] if after else Fraction(0)

    def _voice(
        self,
        found: list[tuple[Grob, Heard | None]],
        rests: list[tuple[Fraction, Fraction | None]],
        last: Fraction,
    ) -> tuple[list[Note], list[tuple[Fraction, Fraction]]]:
        columns: list[list[tuple[Grob, Heard | None]]] = []
        for g, pitch in sorted(found, key=lambda p: (p[0].at, p[0].grace, p[0].y)):
            if columns and (columns[-1][0][0].at, columns[-1][0][0].grace) == (g.at, g.grace):
                columns[-1].append((g, pitch))
            else:
                columns.append([(g, pitch)])
        # A bracketed head takes no time: the note before it continues to whatever follows.
        timed = (c[0][0] for c in columns if not c[0][0].grace and c[0][0].id not in self._bracketed)
        # While a box is repeated nothing else begins.
        lines = (start for start, _, _ in self.reading.repeated_on)
        starts = sorted({*(g.at for g in timed), *(r[0] for r in rests), *lines, last})
        notes: list[Note] = []
        for heads in columns:
            g, pitch = heads[0]
            after = starts[min(bisect_right(starts, g.at), len(starts) - 1)]
            value, feathered = self._value(g)
            stops = g.id in self._bracketed
            at = g.at
            grace = self._grace(g) if g.grace and not stops else ""
            if stops or grace:
                value = None
            source = self._tied_from.get(g.id)
            before = next((k for k, n in enumerate(notes) if source in n.ids), None) if source else None
            if before is not None:
                old = notes[before]
                self._accounted(old, at)
                if value is None or old.value is None or old.position != g.y:
                    self.reading.faults.append(f"a tie that joins what cannot be tied, at beat {_told(at)}")
                    value = value or Fraction(0)
                notes[before] = replace(
                    old,
                    value=(old.value or 0) + value,
                    repeats=self._repeats_of_tied(old, value, self._repeated(g)),
                    marks=old.marks | self._marks.get((g.voice, g.at, g.grace), set()),
                    ids=(*old.ids, g.id),
                    ends=after,
                    leaves_on_line=g.id in self._on_line,
                )
                continue
            notes.append(
                Note(
                    at=at,
                    value=value,
                    pitch=pitch,
                    position=g.y or 0.0,
                    form="ghost" if g.id in self._ghosts else _form(g),
                    begins=self._reached.get(g.id, "attack"),
                    stops=stops,
                    small=g.more["size"] < -1,
                    feathered=feathered,
                    leaves_on_line=any(h.id in self._on_line for h, _ in heads),
                    above=tuple(p for _, p in heads[1:] if p is not None),
                    cents=self._cents.get((g.voice, g.at, g.grace), ""),
                    sung=self._sung(g),
                    ends=after,
                    marks=frozenset(self._marks.get((g.voice, g.at, g.grace), ())),
                    ids=tuple(h.id for h, _ in heads),
                    grace=grace,
                    repeats=self._repeated(g),
                    words=self._words.get((g.voice, g.at), ""),
                )
            )
        for note in notes:
            self._accounted(note, note.ends)
        stretches = []
        in_time = self.reading.meter is None and any(n.value is None and not n.stops and not n.grace for n in notes)
        for at, value in rests:
            following = starts[bisect_right(starts, at) :]
            # Nothing may come after the last rest of a second voice: it says itself how long it is.
            after = following[0] if following else at + (value or 0)
            stretches.append((at, after if value is None else at + value))
            if value is not None and value != after - at and not in_time:
                self.reading.faults.append(f"a rest of {_told(value)} beats stands for {_told(after - at)}")
        return notes, stretches

    def _repeated(self, g: Grob) -> Fraction | None:
        """Each stroke through a stem halves the value that a note is repeated in, as flags and beams do (Gould,
        Tremolos); without these one stroke is eighths."""
        strokes = self._strokes.get((g.voice, g.at, g.grace))
        if not strokes:
            return None
        stem = self._stem_of.get(g.id)
        flags = 0
        if stem is not None and stem.more["beam"] in self._beams:
            flags = max(stem.more["beaming"])
        elif stem is not None and stem.more["flag"] in self._flags:
            flags = _flag_count(self._flags[stem.more["flag"]])
        return Fraction(1, 2 ** (strokes + flags))

    def _repeats_of_tied(self, old: Note, value: Fraction, repeats: Fraction | None) -> Fraction | None:
        """A tied part without strokes that is too short for two of the repeats of the other parts belongs to
        them. Three strokes are unmeasured, whatever the flags add."""
        rates = {rate for rate in (old.repeats, repeats) if rate is not None}
        if None in (old.repeats, repeats) and rates:
            plain = old.value if old.repeats is None else value
            wrong = plain is None or plain >= 2 * max(rates)
        else:
            wrong = len(rates) > 1 and max(rates) > _THREE_STROKES
        if wrong:
            self.reading.faults.append(f"a tied note repeated in part of its time, at beat {_told(old.at)}")
        return old.repeats or repeats

    def _grace(self, g: Grob) -> str:
        """Struck through its flag, or through its stem where several stand under a beam (Gould, Grace notes): as
        quick as can be. The first of a beam has it for all."""
        stem = self._stem_of.get(g.id)
        if stem is None or g.more["size"] >= -1:
            where = _told(g.at or Fraction(0))
            self.reading.faults.append(f"a grace note that looks like any other, at beat {where}")
            return "plain"
        beam = self._beams.get(stem.more["beam"]) if stem.more["beam"] else None
        first = next((s for s in self._named("Stem") if beam is not None and s.id == beam.more["stems"][0]), stem)
        struck = any(what == "draw-line" for _, _, kind, what in first.drawn if kind == "shape")
        flag = self._flags.get(stem.more["flag"])
        struck = struck or (flag is not None and any("grace" in name for name in flag.glyphs))
        return "slashed" if struck else "plain"

    def _accounted(self, note: Note, until: Fraction) -> None:
        """Time left over by a note value must be filled by something, unless a line continues through it."""
        if note.value is None or note.stops:
            return
        left = until - note.at - note.value
        if left < 0 or (left and not note.leaves_on_line):
            self.reading.faults.append(
                f"the values of the note at beat {_told(note.at)} come to {_told(note.value)}, "
                f"what follows it comes after {_told(until - note.at)}"
            )

    def _value(self, g: Grob) -> tuple[Fraction | None, bool]:
        """Its value in beats, None for a black head without a stem; and whether its beam is feathered."""
        stem = self._stem_of.get(g.id)
        log = _log(g, stem)
        if log >= 2 and stem is None:
            return None, False
        beam = self._beams.get(stem.more["beam"]) if stem is not None and stem.more["beam"] else None
        if beam is not None and beam.more["feather"]:
            return None, True
        value = Fraction(4, 2**log)
        if beam is not None:
            value /= 2 ** max(stem.more["beaming"])
        elif stem is not None and stem.more["flag"] in self._flags:
            value /= 2 ** _flag_count(self._flags[stem.more["flag"]])
        dots = self._dots.get(g.more["dots"], 0)
        value *= 2 - Fraction(1, 2**dots)
        return value * self._factor.get(g.id, Fraction(1)), False

    def _check_lengths(self) -> None:
        """A bracket is as long as it says."""
        for g in {g.id: g for g in self._named("GestureAbove")}.values():
            stated, start, end = _stated(g), g.moment("starts"), g.moment("ends")
            if g.text.strip("()").endswith(" s"):  # the length of a beat is given elsewhere
                continue
            if stated is not None and start is not None and end is not None and end - start != stated:
                self.reading.faults.append(f"{g.text!r} over {_told(end - start)}")

    def _check_bars(self) -> None:
        """Bar lines are one bar apart. The last bar may be short if it is repeated from there."""
        if self.reading.meter is None:
            return
        signs = {g.at: _time(g) for g in self._named("TimeSignature") if g.at is not None}
        repeats = {g.at for g in self._named("BarLine") if g.more["glyph"].startswith(":")}
        start = min(signs, default=Fraction(0))
        meter = self.reading.meter
        length = Fraction(4 * meter[0], meter[1])
        counted = {self._bar_before(g): self._bars_of(g) for g in self._named("MultiMeasureRest")}
        last = max((g.at for g in self._grobs if g.name == "NoteHead" and g.at is not None), default=start)
        if not any(b > start for b in self.reading.bars) and last - start >= length:
            self.reading.faults.append("no bar line, in music of more than a bar")
        for n, bar in enumerate(dict.fromkeys(b for b in self.reading.bars if b > start), start=1):
            meter = signs.get(start) or meter
            length = Fraction(4 * meter[0], meter[1]) * counted.get(start, 1)
            if n == 1 and bar - start < length and any(b > bar for b in self.reading.bars):
                self.reading.pickup = bar - start
            elif bar - start != length and not (bar in repeats and bar - start < length):
                self.reading.faults.append(f"bar {n} has {_told(bar - start)} beats in {_told(length)}")
            start = bar


_SHORT = Fraction(1, 16)


def _signs_of(g: Grob) -> int:
    """The sharps of a key signature, or its flats below 0."""
    names = [n for n in g.glyphs if n in ALTERATION]
    return sum(1 if ALTERATION[n] > 0 else -1 for n in names)


def _stated(g: Grob) -> Fraction | None:
    """The length given by a bracket: `1 1/3 beats`, `2 quarters`, `2.5 s`; None if it gives none."""
    words = g.text.strip("()").split()
    if len(words) < 2 or words[-1] not in ("beat", "beats", "quarter", "quarters", "s"):
        return None
    return sum((Fraction(w) for w in words[:-1]), Fraction(0))


def _told(beats: Fraction) -> str:
    return f"{float(beats):g}"


def _belongs(accidental: Grob, head: Grob) -> bool:
    """Whether an accidental is before a head: at its height, in its place."""
    return (
        accidental.system == head.system
        and accidental.at == head.at
        and accidental.grace == head.grace
        and abs((accidental.y or 0) - (head.y or 0)) < 0.2
        and accidental.x < head.x
    )


def _together(one: list[Grob], other: list[Grob]) -> bool:
    """Whether a voice begins during another, or with it."""
    times = [g.at for g in other if g.at is not None]
    return any(g.at is not None and min(times) <= g.at <= max(times) for g in one[:1])


def _over(number: Grob, rest: Grob) -> bool:
    return number.system == rest.system and rest.x - 3 < (number.x + number.right) / 2 < rest.right + 3


def _alteration(g: Grob, faults: list[str]) -> Fraction:
    found = [ALTERATION[n] for n in g.glyphs if n in ALTERATION]
    if not found:
        faults.append(f"an accidental nobody knows: {g.glyphs}")
        return Fraction(0)
    return found[-1]


def _eighth(g: Grob) -> Fraction | None:
    """The alteration shown by an arrow where it stands for an eighth tone."""
    for name in g.glyphs:
        base, _, arrow = name.rpartition(".arrow")
        if base in ALTERATION:
            return ALTERATION[base] + Fraction(1 if arrow == "up" else -1, 4)
    return None


def _form(g: Grob) -> str:
    name = next((n for n in g.glyphs if n.startswith("noteheads.")), None)
    if name is None:
        return "triangle-down"  # the only head missing from the font
    return _FORMS.get(name.split(".")[1].lstrip("sudM-").lstrip("0123456789").removesuffix("Thin"), name)


def _log(g: Grob, stem: Grob | None) -> int:
    """0 for a whole note, 1 for a half note, 2 for black heads."""
    name = next((n for n in g.glyphs if n.startswith("noteheads.")), None)
    if name is None:
        is_open = any(kind == "path" and what == "open" for _, _, kind, what in g.drawn)
        return 2 if not is_open else 0 if stem is None else 1
    digits = [c for c in name.split(".")[1] if c.isdigit()]
    # There is only one open diamond: with a stem it is a half note.
    log = int(digits[0]) if digits else 0
    return 1 if log == 0 and stem is not None else log


def _flag_count(g: Grob) -> int:
    name = next(n for n in g.glyphs if n.startswith("flags.") and n[-1].isdigit())
    return int(name[-1]) - 2


def _rest_value(g: Grob, dots: dict[int, int]) -> Fraction:
    name = next(n for n in g.glyphs if n.startswith("rests."))
    log = int("".join(c for c in name.removeprefix("rests.") if c.isdigit()))
    count = dots.get(g.more["dots"], 0)
    return Fraction(4, 2**log) * (2 - Fraction(1, 2**count))


def _tuplet(text: str) -> Fraction:
    """So many in the time of the next smaller power of two, unless it says otherwise (`5:6`)."""
    parts = [int(p) for p in text.replace(" ", "").split(":")]
    if len(parts) == 2:
        return Fraction(parts[1], parts[0])
    return Fraction(2 ** (parts[0].bit_length() - 1), parts[0])


def _time(g: Grob) -> tuple[int, int] | None:
    if "timesig.C44" in g.glyphs:
        return (4, 4)
    if "timesig.C22" in g.glyphs:
        return (2, 2)
    numbers = [what for _, _, kind, what in sorted(g.drawn, key=lambda d: -d[1]) if kind == "text"]
    return (int(numbers[0]), int(numbers[1])) if len(numbers) == 2 else None


def _tempo(g: Grob) -> Fraction | None:
    """Quarter notes per minute: the note value shown, with its dot, times the number."""
    heads = [n for n in g.glyphs if n.startswith("noteheads.")]
    number = next((w for w in g.text.replace("(", " ").replace(")", " ").split() if w[0].isdigit()), None)
    if not heads or number is None:
        return None
    log = int("".join(c for c in heads[0] if c.isdigit()))
    flags = [int(n[-1]) - 2 for n in g.glyphs if n.startswith("flags.")]
    value = Fraction(4, 2**log) / 2 ** (flags[0] if flags else 0)
    return Fraction(number) * value * (Fraction(3, 2) if "dots.dot" in g.glyphs else 1)


def _joined(stretches: list[tuple[Fraction, Fraction]]) -> list[tuple[Fraction, Fraction]]:
    made: list[tuple[Fraction, Fraction]] = []
    for start, end in sorted(stretches):
        if made and start <= made[-1][1]:
            made[-1] = (made[-1][0], max(end, made[-1][1]))
        else:
            made.append((start, end))
    return made
