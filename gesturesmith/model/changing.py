"""What changes inside a passage while its entries are read: the tempo and the bars so far, and every mistake."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.lang import nodes
from gesturesmith.model import messages
from gesturesmith.model.changes import (
    Change,
    DoubleBar,
    KeyChange,
    MeterChange,
    RehearsalMark,
    TempoChange,
    TempoGradually,
    bar_beats,
)
from gesturesmith.model.context import Context
from gesturesmith.model.tempo import TempoMap, mapped
from gesturesmith.source import Span
from gesturesmith.units import KeySignature

MAX_CHANGES = 500  # in one passage, those of passages inside it included
_FASTER = "accelerando"


class Course:
    """The changes of a passage from its beginning, in the order in which they are added.

    tempo, words, counted, meter, key   of the beginning; what an entry there changes is that
    placed   the entries with their times, so that a passage around this one can repeat them
    """

    def __init__(
        self,
        ctx: Context,
        tempo: Fraction,
        meter: tuple[int, int] | None,
        pickup: Fraction,
        key: KeySignature | None,
        counted: Fraction | None,
    ) -> None:
        self.tempo, self.meter, self.key = tempo, meter, key
        self.words: str | None = None
        self.counted = counted
        self.renewed = False  # whether an entry gives the tempo of the beginning
        self.changes: list[Change] = []
        self.placed: list[tuple[Fraction, nodes.PlayItem]] = []
        self.full = False  # more entries than are read
        self._ctx = ctx
        self._named = counted  # the note that the last tempo with one names
        self._turns: list[tuple[Fraction, Fraction, Fraction]] = []
        self._map = mapped(tempo, ())
        self._pickup = pickup
        self._signatures = [(Fraction(0), meter)]
        self._last: dict[Fraction, Span] = {}  # where entries stand that nothing has followed yet

    @property
    def tempo_map(self) -> TempoMap:
        return self._map

    @property
    def key_now(self) -> KeySignature:
        """The key after all entries so far; open if none is given."""
        first = self.key if self.key is not None else KeySignature(0)
        return next((c.key for c in reversed(self.changes) if isinstance(c, KeyChange)), first)

    def time(self, at: Fraction, beats: Fraction) -> tuple[Fraction, TempoMap | None]:
        """The tempo of an item, and how it changes meanwhile."""
        if self._map.steady:
            return self.tempo, None
        part = self._map.part(at, at + beats)
        return part.first, None if part.steady else part

    def add(self, node: nodes.PlayItem, at: Fraction) -> None:
        """An entry at a time, placed and taken."""
        if self.place(node, at):
            self.take(node, at)

    def place(self, node: nodes.PlayItem, at: Fraction) -> bool:
        """Keep an entry with its time; False, after an error the first time, if there are too many. In a line among
        others nothing else is done with it: what holds for all lines is taken."""
        if self.full:
            return False
        if len(self.placed) == MAX_CHANGES:
            self.full = True
            self._ctx.error("too-many-changes", node.span, limit=MAX_CHANGES)
            return False
        self.placed.append((at, node))
        return True

    def take(self, node: nodes.PlayItem, at: Fraction) -> None:
        """What an entry changes from a time on; a mistake is reported."""
        change = node.change
        if isinstance(change, nodes.Tempo):
            self._tempo(change, node.span, at)
        elif isinstance(change, nodes.GradualNode):
            self._gradually(change, node.span, at)
        elif isinstance(change, nodes.TimeSignature):
            self._meter(change, node.span, at)
        elif isinstance(change, nodes.KeyNode):
            if self._at_bar_line("a new key", node.span, at) and not self._ctx.keyless:
                self._key(self._ctx.sounding_key(change.key), node.span, at)
        elif isinstance(change, nodes.MarkNode):
            if self._at_bar_line("a rehearsal mark", node.span, at):
                self._put(RehearsalMark(at=at, text=change.text), node.span)
        elif at == 0:
            self._ctx.error("nothing-there", node.span, what="this double bar", where="before")
        elif self._at_bar_line("a double bar line", node.span, at):
            self._put(DoubleBar(at=at), node.span)

    def end(self, end: Fraction, repeated: bool) -> None:
        """Report what needs more music than there is."""
        for change in self.changes:
            if isinstance(change, TempoGradually) and change.until > end:
                over, there = (self._beats(length) for length in (change.until - change.at, end - change.at))
                what = f"this {change.turn} takes {over}"
                if end > change.at:
                    self._ctx.error("too-little-after", self._last[change.at], what=what, there=there)
        for at, span in self._last.items():
            found = [c for c in self.changes if c.at == at == end]
            if found and (repeated or not all(isinstance(c, DoubleBar) for c in found)):
                self._ctx.error("nothing-there", span, what="this", where="after")

    def bar_start(self, at: Fraction) -> Fraction | None:
        """Where the bar around a time begins; before 0 in a pickup; None if there are no bars."""
        since, meter = max((one for one in self._signatures if one[0] <= at), key=lambda one: one[0])
        if meter is None:
            return None
        bar = bar_beats(meter)
        origin = self._pickup - bar if since == 0 and self._pickup else since
        return origin + (at - origin) // bar * bar

    def bar_at(self, at: Fraction) -> Fraction | None:
        """The length of the bar that begins at a time or contains it."""
        meter = max((one for one in self._signatures if one[0] <= at), key=lambda one: one[0])[1]
        return None if meter is None else bar_beats(meter)

    # -- each kind ---------------------------------------------------------------------------------------

    def _tempo(self, change: nodes.Tempo, span: Span, at: Fraction) -> None:
        tempo = self._quarters(change)
        self._named = change.note or self._named
        words = change.words.text if change.words is not None else None
        if at == 0 and not self._turns:
            self.tempo, self.words, self.counted, self.renewed = tempo, words, self._named, True
            self._map = mapped(tempo, ())
        elif self._free_from(span, at):
            self._put(TempoChange(at=at, tempo=tempo, words=words, counted=self._named), span)
            self._turn(at, at, tempo)

    def _gradually(self, change: nodes.GradualNode, span: Span, at: Fraction) -> None:
        ctx, to = self._ctx, self._quarters(change.to)
        self._named = change.to.note or self._named
        if not self._free_from(span, at):
            return
        now = self._turns[-1][2] if self._turns else self.tempo
        if (to > now) != (change.turn == _FASTER) or to == now:
            other = "ritardando" if change.turn == _FASTER else _FASTER
            faster = "faster" if change.turn == _FASTER else "slower"
            said, there = (messages.amount(one / (self._named or ctx.beat)) for one in (to, now))
            instead = f"{other} to {said}" if to != now else "another tempo"
            ctx.error("tempo-backwards", span, turn=change.turn, faster=faster, to=said, now=there, instead=instead)
            return
        over = change.over.value * ctx.beat
        if change.over.unit == "bars":
            bar = self.bar_at(at)
            if bar is None:
                ctx.error("change-without-meter", change.over.span, what="bars")
                return
            over = change.over.value * bar
        if ctx.short_enough(f"this {change.turn}", over, change.over.span):
            self._put(TempoGradually(at=at, until=at + over, turn=change.turn, tempo=to, counted=self._named), span)
            self._turn(at, at + over, to)

    def _meter(self, change: nodes.TimeSignature, span: Span, at: Fraction) -> None:
        if change.beats is None or change.unit is None:
            return
        meter = change.beats, change.unit
        if self.meter is None:
            self._ctx.error("change-without-meter", span, what=f"meter {meter[0]}/{meter[1]}")
        elif at == 0:
            self.meter = meter
            self._signatures = [(at, meter)]
        elif meter == self._signatures[-1][1]:
            self._ctx.error("changed-twice", span)
        elif self._at_bar_line("a new meter", span, at):
            self._put(MeterChange(at=at, meter=meter), span)
            self._signatures.append((at, meter))

    def _key(self, key: KeySignature, span: Span, at: Fraction) -> None:
        if at == 0:
            self.key = key
        elif key == self.key_now:
            self._ctx.error("changed-twice", span)
        else:
            self._put(KeyChange(at=at, key=key), span)

    def _put(self, change: Change, span: Span) -> None:
        if any(type(one) is type(change) and one.at == change.at for one in self.changes):
            self._ctx.error("changed-twice", span)
        self.changes.append(change)
        self._last[change.at] = span

    def _turn(self, start: Fraction, end: Fraction, to: Fraction) -> None:
        self._turns.append((start, end, to))
        self._map = mapped(self.tempo, self._turns)

    def _free_from(self, span: Span, at: Fraction) -> bool:
        """Whether no earlier change of tempo goes on."""
        free = not self._turns or self._turns[-1][1] <= at
        if not free:
            start, end, _ = self._turns[-1]
            length, gone = self._beats(end - start), self._beats(at - start)
            self._ctx.error("tempo-overlap", span, length=length, gone=gone)
        return free

    def _at_bar_line(self, what: str, span: Span, at: Fraction) -> bool:
        start, bar = self.bar_start(at), self.bar_at(at)
        if start is None or bar is None or start == at:
            return True
        there, whole, rest = (self._beats(one) for one in (at - start, bar, bar - (at - start)))
        self._ctx.error("change-mid-bar", span, what=what, there=there, whole=whole, rest=rest)
        return False

    def _quarters(self, tempo: nodes.Tempo) -> Fraction:
        return tempo.bpm.value * (tempo.note or self._named or self._ctx.beat)

    def _beats(self, quarters: Fraction) -> str:
        return messages.length(quarters / self._ctx.beat, False)
