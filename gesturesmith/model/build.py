"""From a gesture block to a complete gesture."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import get_args

from gesturesmith import techniques
from gesturesmith.kinds import Mute, one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.keys import TRANSLATED
from gesturesmith.lang.messages import shown
from gesturesmith.lang.words import NOTEHEADS
from gesturesmith.model import contour as contours
from gesturesmith.model import harmonics, messages, strokes, translations, trills, waves
from gesturesmith.model.context import Context
from gesturesmith.model.contour import GestureLength
from gesturesmith.model.dynamics import at_each, dynamics, from_points
from gesturesmith.model.gesture import (
    Allow,
    AskedFingering,
    Attacks,
    Band,
    ContourPoint,
    DynamicMark,
    Gesture,
    Segment,
    Sung,
)
from gesturesmith.source import Span
from gesturesmith.techniques.base import Technique

_ORDINARY = "ordinary"
_AUTO = AskedFingering(mode="auto", tubes=(), span=None)


def gesture(ctx: Context, block: nodes.Block) -> Gesture | None:
    """The gesture of a block, or None if anything in it is wrong; errors go to the context."""
    ctx.enter(block)
    asked = trills.with_trill(ctx, block, _with_mute(ctx, block, _techniques(ctx, block)))
    asked = _by_hand(ctx, block, asked)
    band, band_flawed = _band(ctx, block)
    attacks = _attacks(ctx, block)
    clock, points, segments = _contour(ctx, block, asked, band, band_flawed, attacks)
    points = trills.at_points(ctx, block, points)
    if clock.beats is not None:
        strokes.check(ctx, points, segments, seconds=clock.seconds, attacks=attacks.span if attacks else None)
    levels = ctx.value(block, "dynamics", nodes.Dynamics)
    marks = from_points(points) if levels is None else _dynamics(ctx, levels, clock)
    speed, width = (waves.waves(ctx, block, key, clock, points) for key in ("speed", "width"))
    sing = _sing(ctx, block, clock, band, band_flawed)
    fingering = _fingering(ctx, block, points)
    fallback = _fallback(ctx, block)
    allows = _allows(ctx, block)
    mute = ctx.value(block, "mute", nodes.Word)
    notehead = ctx.value(block, "notehead", nodes.Word)
    texts = {key: translations.text(block, key, ctx.languages) for key in TRANSLATED}
    if clock.beats is not None:
        lasts = block.get("lasts")
        ctx.short_enough("this gesture", clock.beats, lasts.span if lasts is not None else block.name.span)
    if ctx.flawed or clock.beats is None or not points:
        return None
    made = Gesture(
        name=block.name.text,
        title=block.title.text if block.title is not None else None,
        instrument=ctx.instrument,
        techniques=asked,
        points=points,
        segments=segments,
        band=band,
        beats=clock.beats,
        in_seconds=clock.seconds,
        tempo=ctx.tempo,
        dynamics=marks,
        attacks=attacks,
        fingering=fingering,
        mute=one_of(get_args(Mute), mute.text) if mute is not None else _usual_mute(points),
        sing=sing,
        fallback=fallback,
        text=texts["text"],
        footnote=texts["footnote"],
        note=texts["note"],
        own_texts=translations.own_texts(block, ctx.languages),
        notehead=one_of(NOTEHEADS, notehead.text) if notehead is not None else "auto",
        allows=allows,
        spans={e.key.text: e.span for e in reversed(block.entries)},
        span=block.span,
        beat=ctx.beat,
        speed=speed,
        width=width,
    )
    return replace(made, dynamics=at_each(made)) if levels is not None and levels.each else made


def plain(
    ctx: Context,
    note: nodes.Note | nodes.JustNote | nodes.Harmonic,
    beats: Fraction,
    as_: tuple[nodes.Word, ...],
    marks: tuple[nodes.Word, ...],
    graces: tuple[nodes.GraceNode, ...],
    texts: tuple[nodes.PointText, ...],
    span: Span,
) -> Gesture | None:
    """A pitch in a passage, as an unnamed gesture of one point; None after an error."""
    asked = tuple(t for word in as_ if (t := ctx.technique(word)) is not None)
    if len(asked) < len(as_):
        return None
    own = asked or (techniques.get(_ORDINARY),)
    point = nodes.PointNode(height=note, at=None, marks=marks, graces=graces, texts=texts, span=span)
    node = nodes.Contour((point,), (), span)
    points, segments = contours.contour(ctx, node, GestureLength(beats), band=None, techniques=own)
    strokes.check(ctx, points, segments, seconds=False, attacks=None)
    return Gesture(
        name="", title=None, instrument=ctx.instrument, techniques=own, points=points, segments=segments,
        band=None, beats=beats, in_seconds=False, tempo=ctx.tempo, dynamics=from_points(points), attacks=None,
        fingering=_on_its_tube(note), mute=_usual_mute(points), sing=None, fallback=None, text=None, footnote=None,
        note=None,
        notehead="auto", allows=(), spans={}, span=span, beat=ctx.beat,
    )  # fmt: skip


def _on_its_tube(note: nodes.Note | nodes.JustNote | nodes.Harmonic) -> AskedFingering:
    """The tube that a harmonic names, and it is played on that; else what the player takes."""
    if not isinstance(note, nodes.Harmonic):
        return _AUTO
    return AskedFingering(mode="given", tubes=(_tube(note.tube),), span=None)


def _techniques(ctx: Context, block: nodes.Block) -> tuple[Technique, ...]:
    node = ctx.value(block, "technique", nodes.Names)
    if node is None:
        return (techniques.get(_ORDINARY),)
    found = (ctx.technique(word) for word in node.words)
    return tuple(t for t in found if t is not None)


@cache
def _of_mutes() -> tuple[Technique, ...]:
    """The techniques of one mute."""
    return tuple(t for t in map(techniques.get, techniques.names()) if t.of_mute)


def _with_mute(ctx: Context, block: nodes.Block, asked: tuple[Technique, ...]) -> tuple[Technique, ...]:
    """The techniques, with `muted` added if a mute is named: nobody names a mute that stays out. If points turn to
    it, they say when it is in."""
    contour = ctx.value(block, "contour", nodes.Contour)
    turned = {word.text for p in contour.points for word in p.as_} if contour is not None else set()
    mute = ctx.value(block, "mute", nodes.Word)
    named = turned.union([t.key for t in asked])
    own = [t for t in _of_mutes() if t.key in named]
    if mute is not None and any(t.of_mute != mute.text for t in own):
        ctx.error("stem-of-other-mute", mute.span, technique=f"`{own[0].key}`", mute=own[0].of_mute)
    if (mute is None and not own) or any(t.takes_mute for t in asked):
        return asked
    if any(t.key in turned for t in contours.with_mutes()):
        return asked
    rest = [t for t in asked if t.layer != "none"]
    return (*(t for t in rest if not t.of_mute), *contours.with_mutes(), *(t for t in rest if t.of_mute))


def _by_hand(ctx: Context, block: nodes.Block, asked: tuple[Technique, ...]) -> tuple[Technique, ...]:
    contour = ctx.value(block, "contour", nodes.Contour)
    # Beside a hand that closes the bell by its own name it stays what it is, and the two contradict each other.
    in_bell = contours.hand_in_bell(ctx.instrument, asked, contour) and not any(t.bell_hand for t in asked)
    return tuple(contours.by_hand(t, in_bell=in_bell) for t in asked)


def _usual_mute(points: tuple[ContourPoint, ...]) -> Mute | None:
    """The mute if none is named: that to which a technique belongs, or a straight one if any takes a mute."""
    found = [t for p in points for t in p.techniques if t.takes_mute or t.of_mute]
    return next((t.of_mute for t in found if t.of_mute), "straight") if found else None


def _band(ctx: Context, block: nodes.Block) -> tuple[Band | None, bool]:
    """The band, and whether one is written but unreadable."""
    node = ctx.value(block, "band", nodes.BandNode)
    band = contours.band(ctx, node) if node is not None else None
    return band, band is None and block.get("band") is not None


def _clock(ctx: Context, block: nodes.Block, node: nodes.Contour | None) -> GestureLength:
    """The length of the gesture; its beats are None if neither length nor contour is known."""
    lasts = ctx.value(block, "lasts", nodes.Amount)
    if lasts is not None and lasts.value <= 0:
        ctx.error("no-length", lasts.span)
        lasts = None
    if node is not None and node.beats is not None:
        if lasts is not None:
            ctx.error("lasts-twice", lasts.span, length=messages.length(node.beats, False))
        return GestureLength(node.beats * ctx.beat, ctx.beat)
    if lasts is None:
        return GestureLength(contours.usual_beats(node) * ctx.beat if node is not None else None, ctx.beat)
    if lasts.unit == "bars":
        if ctx.meter is None:
            ctx.error("bars-without-meter", lasts.span, bars=messages.amount(lasts.value))
            return GestureLength(Fraction(1))
        count, note = ctx.meter
        return GestureLength(lasts.value * Fraction(4 * count, note), ctx.beat)
    seconds = lasts.unit == "s"
    unit = ctx.tempo / 60 if seconds else ctx.beat
    return GestureLength(lasts.value * unit, unit, seconds)


def _contour(
    ctx: Context,
    block: nodes.Block,
    asked: tuple[Technique, ...],
    band: Band | None,
    band_flawed: bool,
    attacks: Attacks | None,
) -> tuple[GestureLength, tuple[ContourPoint, ...], tuple[Segment, ...]]:
    node = ctx.value(block, "contour", nodes.Contour)
    clock = _clock(ctx, block, node)
    if node is None or not node.points:
        # An unreadable line in the block may well have been its contour.
        if block.get("contour") is None and not block.broken:
            ctx.error("missing-contour", block.name.span, name=f"`{block.name.text}`")
        return clock, (), ()
    points, segments = contours.contour(
        ctx,
        node,
        clock,
        band=band,
        band_flawed=band_flawed,
        techniques=asked,
        dynamics_written=block.get("dynamics") is not None,
        shape=attacks.shape if attacks is not None and contours.attacked(node) > 1 else "",
    )
    return clock, points, segments


def _dynamics(ctx: Context, node: nodes.Dynamics, clock: GestureLength) -> tuple[DynamicMark, ...]:
    return dynamics(ctx, node, clock) if clock.beats is not None else ()


def _sing(
    ctx: Context, block: nodes.Block, clock: GestureLength, band: Band | None, band_flawed: bool
) -> Sung | None:
    node = ctx.value(block, "sing", nodes.Contour)
    if node is None or not node.points or clock.beats is None:
        return None
    points, segments = contours.contour(ctx, node, clock, band=band, band_flawed=band_flawed, sung=True)
    return Sung(points=points, segments=segments)


def _tube(finger: nodes.Finger) -> str:
    """A fingering as tubes are named; "" if it is left to the chart."""
    return "" if finger.valves == "auto" else harmonics.tube_name(finger)


def _fingering(ctx: Context, block: nodes.Block, points: tuple[ContourPoint, ...]) -> AskedFingering:
    """The fingering asked for: one tube for all points, or one for each sounding point."""
    node = ctx.value(block, "fingering", nodes.FingeringNode)
    named = _tubes_named(ctx, block)
    if node is None:
        if not any(named):
            return _AUTO
        return AskedFingering(mode="given", tubes=tuple(_tube(h.tube) if h else "" for h in named), span=None)
    tubes = tuple(_tube(f) for f in node.items)
    others = tuple(_tube(f.other) if f.other is not None else "" for f in node.items)
    if any(others) and points and not any(t.trill for p in points for t in p.techniques):
        ctx.error("fingering-pair", next(f.other.span for f in node.items if f.other is not None))
    sounding = sum(p.kind != "silence" for p in points)
    if points and len(tubes) not in (0, 1, len(points), sounding):
        count = f"{sounding} sounding points" if sounding != 1 else "1 sounding point"
        ctx.error("fingering-count", node.span, given=len(tubes), points=count)
    elif len(tubes) > 1 and len(tubes) == len(points):  # one was written for each silence as well
        tubes = tuple(t for t, p in zip(tubes, points, strict=True) if p.kind != "silence")
        others = tuple(t for t, p in zip(others, points, strict=True) if p.kind != "silence")
    if any(named):
        tubes = _with_named(ctx, node, tubes, named)
        others = others if len(others) == len(tubes) else ()
        return AskedFingering(mode="given", tubes=tubes, span=node.span, others=others)
    return AskedFingering(mode=node.mode, tubes=tubes, span=node.span, others=others if any(others) else ())


def _tubes_named(ctx: Context, block: nodes.Block) -> tuple[nodes.Harmonic | None, ...]:
    """For each sounding point the harmonic by which it is named, or None."""
    contour = ctx.value(block, "contour", nodes.Contour)
    heights = [p.height for p in contour.points] if contour is not None else []
    return tuple(h if isinstance(h, nodes.Harmonic) else None for h in heights if not isinstance(h, nodes.Rest))


def _with_named(
    ctx: Context,
    node: nodes.FingeringNode,
    tubes: tuple[str, ...],
    named: tuple[nodes.Harmonic | None, ...],
) -> tuple[str, ...]:
    """The fingerings of a key with those of the harmonics; an error if both name a tube for one point."""
    each = tubes if len(tubes) > 1 else (tubes or ("",)) * len(named)
    for asked, harmonic in zip(each, named, strict=False):
        if harmonic is not None and (asked or node.mode == "held"):
            ctx.error(
                "fingering-twice", harmonic.span, name=shown(_tube(harmonic.tube)), how=shown(asked or "held")
            )
            break
    return tuple(_tube(h.tube) if h is not None else asked for asked, h in zip(each, named, strict=False))


def _attacks(ctx: Context, block: nodes.Block) -> Attacks | None:
    node = ctx.value(block, "attacks", nodes.AttacksNode)
    if node is None:
        return None
    contour = ctx.value(block, "contour", nodes.Contour)
    if contour is not None and contour.points:
        _reconciled(ctx, node, contour)
    return Attacks(count=node.count, shape=node.shape, span=node.span)


def _reconciled(ctx: Context, node: nodes.AttacksNode, contour: nodes.Contour) -> None:
    """Report attacks that the notes of the contour cannot have."""
    notes = contours.attacked(contour)
    if notes <= 1 < node.count and contour.lines and any(p.graces or p.after for p in contour.points):
        ctx.error("graces-on-line", node.span, given=messages.attacks(node.count))
    if notes > 1 and node.count != notes:
        what = f"{notes} separate notes, each of which is one"
        instead = f"write `attacks: {notes}`, or write out every repeated note, or give one note or line them all"
        ctx.error("attacks-not-notes", node.span, given=messages.attacks(node.count), what=what, instead=instead)
    elif notes > 1 and node.shape:
        timed = next((p.at for p in contour.points[1:] if p.at is not None), None)
        if timed is not None:
            ctx.error("attacks-timed", timed.span, shape=node.shape, at=messages.amount(timed.value))
    elif notes <= 1 < node.count and any(line.kind == "slur" for line in contour.lines):
        what = "notes under a slur, which has none"
        instead = "write `,` instead of `__` for an attack on each note, or a line for attacks along it"
        ctx.error("attacks-not-notes", node.span, given=messages.attacks(node.count), what=what, instead=instead)


def _fallback(ctx: Context, block: nodes.Block) -> str | None:
    word = ctx.value(block, "fallback", nodes.Word)
    technique = ctx.technique(word) if word is not None else None
    return technique.key if technique is not None else None


def _allows(ctx: Context, block: nodes.Block) -> tuple[Allow, ...]:
    found = []
    for entry in block.entries:
        if entry.key.text != "allow":
            continue
        if not isinstance(entry.value, nodes.AllowNode):
            ctx.flawed = True
            continue
        ctx.rule(entry.value.rule)
        found.append(Allow(rule=entry.value.rule.text, reason=entry.value.reason.text, span=entry.value.span))
    return tuple(found)
