"""Shared state while a file is resolved: its instrument, how pitches are read, and the errors so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from gesturesmith import registry, techniques
from gesturesmith.diagnostics import ReadError
from gesturesmith.evidence import DERIVED, Sourced
from gesturesmith.instruments.base import Instrument
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.reader import MAX_ERRORS, and_more
from gesturesmith.lang.words import LEVELS, MARKS, MUTES, nearest, trade
from gesturesmith.model import messages
from gesturesmith.model.gesture import Pitch
from gesturesmith.model.translations import ENGLISH, PageLanguages
from gesturesmith.source import Span, as_said
from gesturesmith.techniques.base import Technique
from gesturesmith.units import UNISON, KeySignature, Spelling

MAX_POINTS = 500
MAX_GESTURES = 20_000
MAX_NOTES = 100_000  # in all gestures of a file; attacks count if there are more of them
MAX_EVENTS = 10_000
MAX_EVENTS_IN_FILE = 100_000
MAX_VARIANTS = 500
MAX_VARIED_EVENTS = 50_000
MAX_BEATS = 1000
_MAX_COMPARISONS = 100_000  # of unknown words with known ones: takes about a second

_LIKE = 0.8  # required similarity to the name of a technique: "gliss" is not "kiss"
_SLURS = ("slur", "slurred", "legato", "gebunden", "bindebogen", "lie", "liaison", "legatura", "ligature")

_OPEN = Sourced((0, 12000), DERIVED, "stands in for an instrument that could not be read; nothing is judged by it")
# Stands in for an unknown instrument, so that the rest of the file can be read for other mistakes.
UNKNOWN = Instrument(
    key="", name="", part_name="", abbreviation="", sounding=UNISON, sides=(), tubes=(), registers=(),
    usual_range=_OPEN, widest_range=_OPEN, chart={}, chart_evidence=_OPEN, limits={},
)  # fmt: skip


def meant(names: tuple[str, ...]) -> str:
    """The end of a sentence that offers the nearest names: `: do you mean `bend`?`"""
    return f": did you mean {listed(names)}?" if names else ""


def _no_technique(text: str) -> str:
    """Where to put a word that names a mute, a sign or a level, as the end of a sentence; "" for any other."""
    mutes = tuple(m for m in text.split() if m in MUTES) or trade(text, MUTES)
    if mutes:
        also = "; `closed` and `open` at its points" if set(mutes) & {"plunger", "harmon"} else ""
        return f", but there is a key for mutes: write {listed(tuple(f'mute: {mute}' for mute in mutes))}{also}"
    signs = (text,) if text in MARKS else trade(text, MARKS)
    if signs:
        return f", but there is a sign at a point: `G4 {signs[0]}`"
    levels = (text,) if text in LEVELS else trade(text, (*LEVELS, "<", ">"))
    if levels:
        shown_as = f"p {levels[0]} f" if levels[0] == "<" else f"f {levels[0]} p" if levels[0] == ">" else levels[0]
        return f", but there is a key for this: `dynamics: {shown_as}`"
    return ", but there is a line for this: a slur is `G4 __ A4`" if as_said(text) in _SLURS else ""


def spelled(note: nodes.Note) -> Spelling:
    """The spelling of a note as written in the file."""
    return Spelling(note.letter, note.alter, note.octave, note.cents)


@dataclass(slots=True)
class Context:
    """Filled while a file is resolved, then discarded.

    written   whether pitches in the file are written (else sounding)
    block     the current block, for the errors found in it
    flawed    whether the current block has an error, so that it gives no complete value
    two_players   whether two players read one line
    keyless   whether this part has no key signatures, whatever its passages say
    one_part   whether the file is for one instrument, so that its keys are read as its pitches are
    meter     that of the file, None if it is free
    counted   the note that the file's tempo names, in quarters; `tempo` is in quarters a minute
    languages  of the page and of the file's own texts
    varied    notes and silences in all variants of the exercises so far
    """

    instrument: Instrument
    written: bool
    tempo: Fraction
    errors: list[ReadError] = field(default_factory=list)
    block: str | None = None
    flawed: bool = False
    two_players: bool = False
    one_part: bool = True
    keyless: bool = False
    languages: PageLanguages = ENGLISH
    varied: int = 0
    meter: tuple[int, int] | None = None
    counted: Fraction | None = None
    _pitches: dict[tuple[str, Fraction, int, int], tuple[Pitch, Fraction]] = field(default_factory=dict)
    _comparisons: int = 0

    @property
    def beat(self) -> Fraction:
        """The beat of the file, in quarters."""
        return self.counted or Fraction(1)

    def sounding_key(self, key: KeySignature) -> KeySignature:
        """A key in the file as it sounds: it is read as pitches are, but with several parts it is sounding."""
        return key.transposed(self.instrument.sounding) if self.written and self.one_part else key

    @property
    def known(self) -> bool:
        """Whether the instrument is known."""
        return self.instrument is not UNKNOWN

    def error(
        self, rule: str, span: Span, *, nearest: tuple[str, ...] = (), several: bool = False, **words: object
    ) -> None:
        """Record a mistake in the current block; a second one at the same place only if there may be `several`."""
        self.flawed = True
        if not several and self.errors and (self.errors[-1].rule, self.errors[-1].span) == (rule, span):
            return  # of several points that are drawn in one place
        if len(self.errors) < MAX_ERRORS:
            self.errors.append(messages.error(rule, span, block=self.block, nearest=nearest, **words))
        elif not self.full:
            self.errors.append(and_more(span, self.block))

    @property
    def full(self) -> bool:
        """Whether no more errors are shown, so that reading can stop."""
        return len(self.errors) > MAX_ERRORS

    def short_enough(self, what: str, beats: Fraction, span: Span) -> bool:
        """Whether a length can be engraved; an error if it is out of all proportion."""
        if beats > MAX_BEATS:
            self.error("too-long", span, what=what, length=messages.length(beats, False), limit=MAX_BEATS)
        return beats <= MAX_BEATS

    def enter(self, block: nodes.Block) -> None:
        """Begin to read a block."""
        self.block = block.name.text
        self.flawed = block.broken

    def nearest(self, word: str, options: tuple[str, ...], cutoff: float = 0.6) -> tuple[str, ...]:
        """At most three of `options` close to `word`; none once a file has used up its comparisons."""
        self._comparisons += len(options)
        return nearest(word, options, cutoff) if self._comparisons <= _MAX_COMPARISONS else ()

    def value[T](self, block: nodes.Block, key: str, kind: type[T]) -> T | None:
        """The value of a key, or None if it is missing or unreadable."""
        entry = block.get(key)
        if entry is None:
            return None
        if isinstance(entry.value, kind):
            return entry.value
        self.flawed = True  # the reader has reported why
        return None

    def pitch(self, note: nodes.Note) -> tuple[Pitch, Fraction]:
        """The written and sounding spelling of a note, and its sounding cents."""
        key = (note.letter, note.alter, note.octave, note.cents)
        found = self._pitches.get(key)
        if found is None:
            name = Spelling(*key)
            if self.written:
                pitch = Pitch(written=name, sounding=self.instrument.heard(name))
            else:
                pitch = Pitch(written=self.instrument.written(name), sounding=name)
            found = self._pitches[key] = (pitch, pitch.cents)
        return found

    def technique(self, word: nodes.Word) -> Technique | None:
        """The technique a word names, or None after an error."""
        try:
            return techniques.get(word.text)
        except KeyError:
            near, where = self._technique_meant(word.text)
            self.error("unknown-technique", word.span, nearest=near, name=shown(word.text), meant=where)
            return None

    def _technique_meant(self, text: str) -> tuple[tuple[str, ...], str]:
        """What an unknown technique may mean: techniques, and the end of the sentence that offers them."""
        named = as_said(text) in techniques.spoken() or not set(text.split()) & set(MUTES)
        found = techniques.called(text) if named else ()
        if not found:
            elsewhere = _no_technique(text)
            if elsewhere:
                return (), elsewhere
            words = [part for part in text.split() if as_said(part) in techniques.spoken()]
            each = [one[0] for part in words if len(one := techniques.called(part)) == 1]
            if 1 < len(each) == len(text.split()):
                joined = " + ".join(each)
                return (joined,), f": techniques are joined with +: write `{joined}`"
            like = self.nearest(as_said(text), techniques.spoken(), _LIKE)
            found = tuple(dict.fromkeys(techniques.called(like[0]) if like else each))
        here = tuple(name for name in found if self.instrument.gives(techniques.get(name).needs)) or found
        if len(here) > 1 and any(techniques.get(name).means for name in here):
            ways = (
                f"`{name}` ({t.means or t.title['en'].lower()})" for name in here for t in (techniques.get(name),)
            )
            also = "; as a sign at a point: `G4 breath`" if text in MARKS else ""
            return here, f": which one? {'; '.join(ways)}{also}"
        if text in MARKS:
            return here, f"{meant(here)} As a sign it goes after a point: `G4 {text}`"
        return here, meant(here) or "; see `gesturesmith list techniques`"

    def rule(self, word: nodes.Word) -> None:
        """Report a word that names no rule."""
        names = registry.names("gesturesmith.rules")
        if word.text not in names:
            near = self.nearest(word.text, names)
            self.error("unknown-rule", word.span, nearest=near, name=shown(word.text), meant=meant(near))
