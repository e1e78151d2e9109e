"""Contours: points with their times, heights, techniques and words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from gesturesmith import techniques as techniques_known
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import AttackShape, Extreme, LineKind, PointKind, Reached, Strokes, one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.words import COVERS, EXTREMES, LEVELS, STROKES
from gesturesmith.model import harmonics, messages, times
from gesturesmith.model.context import MAX_POINTS, Context, spelled
from gesturesmith.model.force import NO_CHANGE, Change, in_force
from gesturesmith.model.gesture import Band, ContourPoint, Grace, Pitch, Segment
from gesturesmith.source import Span
from gesturesmith.techniques.base import Technique
from gesturesmith.values import frozen

_WORDS_OF_LEVEL = frozenset(LEVELS)
OPEN = "open"
_WAYS_OF_BREATH = ("inhale", "exhale")
_DETACHED = ("none", "slur")  # lines after which a point has a slot of its own


@frozen
class GestureLength:
    """The length of a gesture and the unit of its written times.

    beats          its length in beats; None: one beat a point, as the language page says
    beats_per_unit  beats in one unit of written time: 1, or the beats in a second
    """

    beats: Fraction | None
    beats_per_unit: Fraction = Fraction(1)
    seconds: bool = False

    def shown(self, beats: Fraction) -> str:
        """A time or length in the composer's unit, without its name."""
        return messages.amount(beats / self.beats_per_unit)

    def length(self) -> str:
        return messages.length((self.beats or Fraction(0)) / self.beats_per_unit, self.seconds)

    def given(self, quantities: Iterable[nodes.Amount | None]) -> list[Fraction | None]:
        """Written times in beats."""
        unit = self.beats_per_unit
        return [None if q is None else q.value if unit == 1 else q.value * unit for q in quantities]


def attacked(contour: nodes.Contour) -> int:
    """The number of attacked points: the first, and each after a comma, except silences."""
    before = ("none", *(line.kind for line in contour.lines))
    return sum(
        kind == "none" and not isinstance(point.height, nodes.Rest)
        for kind, point in zip(before, contour.points, strict=True)
    )


def is_detached(contour: nodes.Contour) -> bool:
    """Whether the last point has a slot of its own: after `,` or `__`, or alone."""
    return not contour.lines or contour.lines[-1].kind in _DETACHED


def usual_beats(contour: nodes.Contour) -> Fraction:
    """The length in beats of a gesture without `lasts`."""
    given = [None if p.at is None else p.at.value for p in contour.points]
    return times.usual_length(given, detached=is_detached(contour))


def complain(
    ctx: Context,
    found: list[times.Fault],
    places: list[Fraction | None],
    spans: list[Span],
    clock: GestureLength,
    what: str,
) -> None:
    """Report faulty times; `what` is a point or a level."""
    for fault in found:
        at = places[fault.index] or Fraction(0)
        whom = "for it" if fault.index == len(places) - 1 else f"for the {what} after it"
        ctx.error(
            fault.rule,
            spans[fault.index],
            what=what,
            at=clock.shown(at),
            before=clock.shown(fault.before),
            length=clock.length(),
            whom=whom,
        )


def band(ctx: Context, node: nodes.BandNode) -> Band | None:
    """The band of a register or of two pitches, lower first; None after an error."""
    if node.register is not None:
        word = node.register
        register = ctx.instrument.register(word.text)
        if register is None:
            if ctx.known:
                names = tuple(r.name for r in ctx.instrument.registers)
                ctx.error(
                    "unknown-register",
                    word.span,
                    nearest=ctx.nearest(word.text, names),
                    instrument=ctx.instrument.name,
                    name=shown(word.text),
                    names=listed(names),
                )
            return None
        low, high = (Pitch(written=w, sounding=ctx.instrument.heard(w)) for w in (register.low, register.high))
        return Band(register=register.name, low=low, high=high, span=node.span)
    if node.low is None or node.high is None:
        return None
    (low, low_cents), (high, high_cents) = ctx.pitch(node.low), ctx.pitch(node.high)
    if low_cents == high_cents:
        ctx.error("empty-band", node.span)
        return None
    if low_cents > high_cents:
        ctx.error("upside-down-band", node.span, low=spelled(node.high).name, high=spelled(node.low).name)
        return None
    return Band(register="", low=low, high=high, span=node.span)


@dataclass(slots=True)
class ContourReader:
    """Reads the points of one contour."""

    ctx: Context
    band: Band | None
    band_flawed: bool
    dynamics_written: bool
    sung: bool
    hand_in_bell: bool

    def height(self, node: nodes.Height) -> Fraction:
        """Sounding cents of a height in the band, or of an end of the instrument's usual range."""
        low, high = self.ctx.instrument.usual_range.value
        if node.percent is None:
            return Fraction(high if node.word == "highest" else low)
        if not 0 <= node.percent <= 100:
            self.ctx.error("height-outside-band", node.span, height=shown(node.word))
        elif self.band is not None:
            bottom, top = self.band.low.cents, self.band.high.cents
            return bottom + (top - bottom) * node.percent / 100
        elif not self.band_flawed:
            self.ctx.error("missing-band", node.span, height=shown(node.word))
        return Fraction(6000)

    def change(self, node: nodes.PointNode) -> Change:
        """The change that a point's `as` and `without` make."""
        said = next((word for word in node.marks if word.text in COVERS), None)
        if not node.as_ and not node.without and said is None:
            return NO_CHANGE
        turned = [t for word in node.as_ if (t := self._technique("as", word)) is not None]
        # Beside a hand that closes the bell by its own name it stays what it is, and the two contradict each other.
        in_bell = self.hand_in_bell and not any(t.bell_hand for t in turned)
        turns_to = tuple(by_hand(t, in_bell=in_bell) for t in turned)
        in_bell = self.hand_in_bell
        found = (self._technique("without", word) for word in node.without)
        ends = [by_hand(t, in_bell=in_bell) for t in found if t is not None]
        for word, technique in zip(node.without, ends, strict=False):
            if technique.layer == "none":
                self.ctx.error("ends-ordinary", word.span)
        covered = self._technique("", said) if said is not None and said.text != OPEN else None
        covers = by_hand(covered, in_bell=self.hand_in_bell) if covered is not None else None
        named = tuple(t.key for t in turned) if list(turns_to) != turned else ()
        return Change(turns_to, tuple(ends), covers, said is not None and said.text == OPEN, named)

    def _technique(self, sign: str, word: nodes.Word) -> Technique | None:
        if self.sung:
            self.ctx.error("sung-line", word.span, word=shown(f"{sign} {word.text}".strip()))
            return None
        return self.ctx.technique(word)

    def words(self, node: nodes.PointNode) -> tuple[tuple[str, ...], str, Strokes]:
        """The marks of a point and its dynamic."""
        marks: list[str] = []
        dynamic = ""
        strokes: Strokes = ""
        for word in node.marks:
            if word.text in COVERS and not self.sung:
                continue  # a change of technique
            if word.text in STROKES and not self.sung:
                strokes = one_of(STROKES, word.text)
            elif self.sung and (word.text in (*_WAYS_OF_BREATH, *COVERS, *STROKES)):
                self.ctx.error("sung-line", word.span, word=shown(word.text))
            elif word.text not in _WORDS_OF_LEVEL:
                marks.append(word.text)
            elif self.sung:
                self.ctx.error("sung-line", word.span, word=shown(word.text))
            elif self.dynamics_written:
                self.ctx.error("dynamics-twice", word.span, level=shown(word.text))
            else:
                dynamic = word.text
        return tuple(marks), dynamic, strokes

    def point(
        self,
        node: nodes.PointNode,
        at: Fraction,
        until: Fraction,
        before: LineKind,
        after: LineKind,
        end: bool,
        change: Change,
        force: tuple[Technique, ...],
    ) -> ContourPoint:
        """One point, with the lines `before` and `after` it (none at the ends)."""
        marks, dynamic, strokes = self.words(node) if node.marks else ((), "", "")
        what = node.height
        if isinstance(what, nodes.JustNote | nodes.Harmonic):
            what = harmonics.as_note(self.ctx, what)
        pitch, about, percent = None, True, None
        kind: PointKind = "height"
        extreme: Extreme = ""
        cents: Fraction | None
        if isinstance(what, nodes.Note):
            pitch, cents = self.ctx.pitch(what)
            kind, about = "pitch", what.about
        elif isinstance(what, nodes.Height):
            cents, percent = self.height(what), what.percent
            if percent is None:
                kind, extreme = "extreme", one_of(EXTREMES, what.word)
        else:
            kind, cents, about = "silence", None, False
        by_line = before not in _DETACHED
        reached: Reached = (
            "silence" if kind == "silence" else "line" if by_line else "slur" if before == "slur" else "attack"
        )
        stops = by_line and end and at == until
        return ContourPoint(
            at=at,
            until=until,
            kind=kind,
            sounding_cents=cents,
            pitch=pitch,
            about=about,
            percent=percent,
            extreme=extreme,
            reached=reached,
            held=by_line and not stops and after in _DETACHED,
            stops=stops,
            techniques=force,
            turns_to=tuple(t.key for t in change.turns_to),
            ends=tuple(t.key for t in change.ends),
            covers=change.covers.key if change.covers is not None else "",
            opens=change.opens,
            named=change.named,
            marks=marks,
            words=_text(node, said=False),
            syllable=_text(node, said=True),
            dynamic=dynamic,
            strokes=strokes,
            graces=tuple(map(self._grace, node.graces)),
            after=tuple(map(self._grace, node.after)),
            span=node.span,
        )

    def _grace(self, node: nodes.GraceNode) -> Grace:
        note = node.point.height
        if isinstance(note, nodes.JustNote | nodes.Harmonic):
            note = harmonics.as_note(self.ctx, note)
        if not isinstance(note, nodes.Note):
            raise TypeError(f"a grace note is a pitch, not {note}")
        pitch, cents = self.ctx.pitch(note)
        point = ContourPoint(
            at=Fraction(0),
            until=Fraction(0),
            kind="pitch",
            sounding_cents=cents,
            pitch=pitch,
            about=note.about,
            marks=tuple(word.text for word in node.point.marks),
            span=node.point.span,
        )
        line = node.line
        return Grace(point=point, join=Segment(kind=line.kind, growth=line.growth, span=line.span))


def _text(node: nodes.PointNode, *, said: bool) -> str:
    """The text above a point, or its syllable; "" for none."""
    for text in node.texts:  # most points have none
        if text.said is said:
            return text.text.text
    return ""


def hand_in_bell(instrument: Instrument, asked: tuple[Technique, ...], node: nodes.Contour | None) -> bool:
    """Whether the player's hand is in the bell: on an instrument held so, in a gesture without a mute."""
    if not instrument.has_hand or any(t.takes_mute for t in asked):
        return False
    turned = {word.text for p in node.points if p.as_ for word in p.as_} if node is not None else set()
    return not turned or not any(t.key in turned for t in with_mutes())


@cache
def with_mutes() -> tuple[Technique, ...]:
    """The techniques played with a mute."""
    return tuple(t for t in map(techniques_known.get, techniques_known.names()) if t.takes_mute)


def by_hand(technique: Technique, *, in_bell: bool) -> Technique:
    """What covers the bell; where the hand is in it, what the hand does there."""
    return techniques_known.get(technique.in_hand) if in_bell and technique.in_hand else technique


def contour(
    ctx: Context,
    node: nodes.Contour,
    clock: GestureLength,
    *,
    band: Band | None,
    band_flawed: bool = False,
    techniques: tuple[Technique, ...] = (),
    dynamics_written: bool = False,
    sung: bool = False,
    shape: AttackShape = "",
) -> tuple[tuple[ContourPoint, ...], tuple[Segment, ...]]:
    """The points and segments of a contour in a gesture of known length; errors go to the context.

    shape   of the attacks, if each point is one and none has a written time
    """
    count = len(node.points)
    if count > MAX_POINTS:
        ctx.error("too-many-points", node.points[MAX_POINTS].span, count=count, limit=MAX_POINTS)
        return (), ()
    detached = is_detached(node)
    beats = clock.beats if clock.beats is not None else usual_beats(node) * clock.beats_per_unit
    given = clock.given(p.at for p in node.points)
    found = times.faults(given, detached=detached, length=beats)
    if found:
        spans = [p.at.span if p.at is not None else p.span for p in node.points]
        complain(ctx, found, given, spans, clock, "point")
        given, beats = [None] * count, Fraction(count)  # go on, to find other mistakes
    if shape and not any(given):
        at = tuple(beats * share for share in times.shaped(count if detached else count - 1, shape))
        at = at if detached else (*at, beats)
    else:
        at = times.spread(given, detached=detached, length=beats)
    reader = ContourReader(
        ctx, band, band_flawed, dynamics_written, sung, hand_in_bell(ctx.instrument, techniques, node)
    )
    lines: list[LineKind] = ["none", *(line.kind for line in node.lines), "none"]
    changes = [reader.change(p) for p in node.points]
    forces = in_force(techniques, changes, [kind not in _DETACHED for kind in lines[1:-1]])
    until = (*at[1:], beats)
    points = tuple(
        reader.point(p, at[i], until[i], lines[i], lines[i + 1], i == count - 1, changes[i], forces[i])
        for i, p in enumerate(node.points)
    )
    return points, tuple(Segment(kind=line.kind, growth=line.growth, span=line.span) for line in node.lines)
