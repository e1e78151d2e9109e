"""The signs a page may have to explain: which marks and heads show each, and which points of a gesture show it
best.

What is printed is taken from the score, or from the gesture if the sign means something only together with it.
Techniques have their own entries, which explain signs used only by them (`OF_TECHNIQUES`).
"""

from __future__ import annotations

from collections.abc import Callable

from gesturesmith.kinds import AttackShape, Growth, HeadShape, LineKind
from gesturesmith.lang.words import AD_LIB
from gesturesmith.model.gesture import NIENTE, ContourPoint, Gesture
from gesturesmith.model.piece import Settings
from gesturesmith.rules.base import Case
from gesturesmith.score.heads import look_head, on_page
from gesturesmith.score.marks import (
    BandStart,
    Bend,
    BreathSign,
    Cents,
    Edge,
    Fingering,
    Flutter,
    FootnoteMark,
    FrameStart,
    FrameWords,
    GoesOnStart,
    HandTurnStart,
    LengthStart,
    LineStart,
    LineStyle,
    Mark,
    RepeatStrokes,
    Script,
    SecondNote,
    Small,
    SpanStart,
    SungHead,
    Syllable,
    TechniqueTurnStart,
    TrillSign,
    Words,
)
from gesturesmith.score.music import Music
from gesturesmith.values import frozen

_SHORT = 2  # most successive lines in a picture


@frozen(kw_only=True)
class Use:
    """A gesture as it appears in a part, with the settings of its file."""

    case: Case
    music: Music
    settings: Settings

    @property
    def gesture(self) -> Gesture:
        return self.case.gesture

    def has(self, *kinds: type[Mark]) -> bool:
        """Whether it has a mark of one of these kinds."""
        return any(isinstance(mark, kinds) for mark in self.music.marks)

    def first(self, wanted: Callable[[ContourPoint], bool]) -> int | None:
        """The first sounding point that fulfils a condition."""
        points = enumerate(self.gesture.points)
        return next((i for i, p in points if p.kind != "silence" and wanted(p)), None)

    @property
    def start(self) -> int:
        """The first sounding point."""
        return self.first(lambda point: True) or 0

    def until(self, most: int) -> int:
        """The last of at most `most` sounding points from the first on, up to a silence."""
        start, points = self.start, self.gesture.points
        silent = (i for i, p in enumerate(points) if i > start and p.kind == "silence")
        return min(start + most, next(silent, len(points))) - 1


type Stretch = tuple[int, int]


@frozen(kw_only=True)
class Sign:
    """A sign with the remark that explains it.

    key     its name is `sign-KEY` in `wording`, its remark `remark-KEY`
    group   kind of sign, `group-KEY` in `wording`
    marks   the kinds of marks that show it, if any
    used    whether a gesture uses it
    shown   the first and last point of a gesture that show the sign
    keeps   what an excerpt must keep for it: "techniques", "dynamics", "band", "said" (syllables, breath, ad lib.)
    """

    key: str
    group: str
    marks: tuple[type[Mark], ...] = ()
    used: Callable[[Use], bool]
    shown: Callable[[Use], Stretch | None]
    keeps: tuple[str, ...] = ()


# Marks explained by the entries of techniques or by remarks on fingerings and words, and marks that refer to them.
OF_TECHNIQUES: tuple[type[Mark], ...] = (
    Edge,
    Bend,
    Script,
    HandTurnStart,
    SpanStart,
    Flutter,
    TrillSign,
    SungHead,
)
OF_REMARKS: tuple[type[Mark], ...] = (Fingering, Words, FootnoteMark, FrameStart, FrameWords, GoesOnStart)


def _head(shape: HeadShape) -> Callable[[Use], bool]:
    return lambda use: any(e.head is not None and e.head.shape == shape for e in use.music.events)


def _has_line(style: LineStyle | None = None, growth: Growth | None = None) -> Callable[[Use], bool]:
    def used(use: Use) -> bool:
        lines = (mark for mark in use.music.marks if isinstance(mark, LineStart))
        return any(style in (None, line.style) and growth in (None, line.growth) for line in lines)

    return used


def _has(*kinds: type[Mark]) -> Callable[[Use], bool]:
    return lambda use: use.has(*kinds)


def _fan(fan: AttackShape) -> Callable[[Use], bool]:
    return lambda use: any(part.fan == fan for part in use.music.parts)


def _has_small_head(use: Use) -> bool:
    """A small head other than the diamond of a sung line."""
    marks = (event.marks for event in use.music.events)
    return any(Small() in these and SungHead(shape="diamond") not in these for these in marks)


def _point(wanted: Callable[[ContourPoint], bool]) -> Callable[[Use], Stretch | None]:
    def shown(use: Use) -> Stretch | None:
        index = use.first(wanted)
        return None if index is None else (index, index)

    return shown


def _extreme(which: str) -> Callable[[Use], Stretch | None]:
    """The extreme by itself; among pitches with the nearest of them, so that it stands on the same staff."""

    def shown(use: Use) -> Stretch | None:
        index = use.first(lambda p: p.extreme == which)
        if index is None:
            return None
        pitches = [i for i, p in enumerate(use.gesture.points) if p.kind == "pitch"]
        near = min(pitches, key=lambda i: abs(i - index), default=index)
        return min(index, near), max(index, near)

    return shown


def _start(points: int) -> Callable[[Use], Stretch | None]:
    return lambda use: (use.start, use.until(points))


def _line(kind: LineKind, growth: Growth | None = None) -> Callable[[Use], Stretch | None]:
    """From the first line of a kind, while the same kind continues and a picture has room."""

    def shown(use: Use) -> Stretch | None:
        lines = [s.kind == kind and growth in (None, s.growth) for s in use.gesture.segments]
        if True not in lines:
            return None
        first = lines.index(True)
        goes_on = kind == "wavy" and lines[first + 1 : first + _SHORT] == [True]
        return first, first + (_SHORT if goes_on else 1)

    return shown


def _around(wanted: Callable[[ContourPoint], bool], before: int, after: int) -> Callable[[Use], Stretch | None]:
    def shown(use: Use) -> Stretch | None:
        index = use.first(wanted)
        return None if index is None else (max(0, index - before), min(index + after, len(use.gesture.points) - 1))

    return shown


def _where_said(wanted: Callable[[ContourPoint], bool]) -> Callable[[Use], Stretch | None]:
    """A point that fulfils a condition; a silence together with the note beside it."""

    def shown(use: Use) -> Stretch | None:
        points = use.gesture.points
        index = next((i for i, p in enumerate(points) if wanted(p)), None)
        if index is None or points[index].kind != "silence":
            return None if index is None else (index, index)
        before = index - 1 if index and points[index - 1].kind != "silence" else None
        return (before, index) if before is not None else (index, min(index + 1, len(points) - 1))

    return shown


def _niente(use: Use) -> Stretch | None:
    """The end of the gesture if the sound fades to nothing, else its beginning."""
    last = len(use.gesture.points) - 1
    if use.gesture.dynamics and use.gesture.dynamics[0].level == NIENTE:
        return use.start, use.until(_SHORT)
    return max(0, last - 1), last


def _quarter(use: Use) -> Callable[[ContourPoint], bool]:
    return lambda p: p.pitch is not None and on_page(p.pitch, use.music.pitches).alter.denominator == 2


def _tuned(use: Use) -> Callable[[ContourPoint], bool]:
    return lambda p: p.pitch is not None and on_page(p.pitch, use.music.pitches).cents != 0


def _at(wanted: Callable[[Use], Callable[[ContourPoint], bool]]) -> Callable[[Use], Stretch | None]:
    return lambda use: _point(wanted(use))(use)


def _passes(point: ContourPoint) -> bool:
    return point.reached == "line" and not point.held and not point.stops


def _turns(point: ContourPoint) -> bool:
    return bool(point.turns_to or point.ends) and point.reached == "line"


def _is_diamond(point: ContourPoint) -> bool:
    """A diamond from the techniques: at an approximate pitch or a height an x or a triangle replaces it."""
    return not point.about and not point.extreme and look_head(point.techniques) == "diamond"


def is_about(use: Use) -> bool:
    """An x-head for a pitch: those of strokes without pitch are explained with the stroke."""
    return _head("x")(use) and any(p.about for p in use.gesture.sounding_points)


def is_quarter_tone(music: Music) -> bool:
    """Whether a quarter-tone accidental is printed."""
    return any(e.head is not None and e.head.alter.denominator == 2 for e in music.events)


def _quarter_tones(form: str) -> Callable[[Use], bool]:
    return lambda use: use.settings.accidentals == form and is_quarter_tone(use.music)


def _eighth(use: Use) -> Callable[[ContourPoint], bool]:
    return lambda p: p.pitch is not None and on_page(p.pitch, use.music.pitches).alter.denominator == 4


def _eighths(use: Use) -> bool:
    return any(e.head is not None and e.head.alter.denominator == 4 for e in use.music.events)


def _ad_lib(point: ContourPoint) -> bool:
    return point.words == AD_LIB


def _stops(use: Use) -> bool:
    return any(voice.stop is not None for part in use.music.parts for voice in part.voices)


def _fans(use: Use) -> bool:
    return use.gesture.attacks is not None and use.gesture.attacks.shape != ""


def _of_lines(key: str, style: LineStyle, growth: Growth | None = None) -> Sign:
    return Sign(
        key=key, group="lines", marks=(LineStart,), used=_has_line(style, growth), shown=_line(style, growth)
    )


SIGNS = (
    Sign(key="approximate", group="heads", used=is_about, shown=_point(lambda p: p.about and not p.extreme)),
    Sign(key="highest", group="heads", used=_head("triangle-up"), shown=_extreme("highest")),
    Sign(key="lowest", group="heads", used=_head("triangle-down"), shown=_extreme("lowest")),
    Sign(
        key="slash-head",
        group="heads",
        used=_head("slash"),
        shown=_point(lambda p: True),
        keeps=("techniques",),
    ),
    Sign(
        key="diamond-head",
        group="heads",
        used=lambda use: use.gesture.notehead == "auto" and use.first(_is_diamond) is not None,
        shown=_point(_is_diamond),
        keeps=("techniques",),
    ),
    Sign(key="stops", group="heads", used=_stops, shown=_around(lambda p: p.stops, 1, 0)),
    Sign(
        key="stemless",
        group="heads",
        used=lambda use: not use.gesture.in_seconds and use.first(_passes) is not None,
        shown=_around(_passes, 1, 1),
    ),
    Sign(
        key="small-start",
        group="heads",
        marks=(Small,),
        used=lambda use: use.gesture.in_seconds and _has_small_head(use),
        shown=lambda use: (use.start, use.until(2)),
        keeps=("techniques",),
    ),
    _of_lines("wavy", "wavy"),
    _of_lines("growing", "wavy", "growing"),
    _of_lines("fading", "wavy", "fading"),
    _of_lines("straight", "straight"),
    _of_lines("arrow", "arrow"),
    _of_lines("broken", "broken"),
    _of_lines("dotted", "dotted"),
    Sign(
        key="gradual",
        group="lines",
        marks=(TechniqueTurnStart,),
        used=lambda use: use.first(_turns) is not None,
        shown=_around(_turns, 1, 0),
        keeps=("techniques",),
    ),
    Sign(key="band", group="pitch", marks=(BandStart,), used=_has(BandStart), shown=_start(3), keeps=("band",)),
    Sign(key="lines", group="pitch", used=lambda use: use.music.staff_lines == 3, shown=_start(3)),
    Sign(
        key="second-note",
        group="pitch",
        marks=(SecondNote,),
        used=_has(SecondNote),
        shown=_point(lambda p: any(t.trill == "neighbour" or (t.trill and p.trill) for t in p.techniques)),
        keeps=("techniques",),
    ),
    Sign(key="quarter-tones-stein", group="pitch", used=_quarter_tones("stein"), shown=_at(_quarter)),
    Sign(key="quarter-tones-arrows", group="pitch", used=_quarter_tones("arrows"), shown=_at(_quarter)),
    Sign(key="eighth-tones", group="pitch", used=_eighths, shown=_at(_eighth)),
    Sign(key="cents", group="pitch", marks=(Cents,), used=_has(Cents), shown=_at(_tuned)),
    Sign(key="seconds", group="time", used=lambda use: use.gesture.in_seconds, shown=_start(3)),
    Sign(
        key="beats",
        group="time",
        marks=(LengthStart,),
        used=lambda use: not use.gesture.in_seconds and use.has(LengthStart) and not _fans(use),
        shown=_start(4),
    ),
    Sign(
        key="strokes",
        group="time",
        marks=(RepeatStrokes,),
        used=lambda use: use.first(lambda p: p.strokes not in ("", "unmeasured")) is not None,
        shown=_point(lambda p: p.strokes not in ("", "unmeasured")),
    ),
    Sign(
        key="unmeasured",
        group="time",
        marks=(RepeatStrokes,),
        used=lambda use: use.first(lambda p: p.strokes == "unmeasured") is not None,
        shown=_point(lambda p: p.strokes == "unmeasured"),
    ),
    Sign(
        key="graces",
        group="time",
        used=lambda use: use.first(lambda p: bool(p.graces)) is not None,
        shown=_point(lambda p: bool(p.graces)),
    ),
    Sign(
        key="graces-after",
        group="time",
        used=lambda use: use.first(lambda p: bool(p.after)) is not None,
        shown=_point(lambda p: bool(p.after)),
    ),
    Sign(key="accelerating", group="time", used=_fan("accelerating"), shown=_start(100)),
    Sign(key="slowing", group="time", used=_fan("slowing"), shown=_start(100)),
    Sign(
        key="niente",
        group="time",
        used=lambda use: any(level.niente for level in use.music.levels),
        shown=_niente,
        keeps=("dynamics",),
    ),
    Sign(
        key="ad-lib",
        group="lines",
        used=lambda use: use.first(_ad_lib) is not None,
        shown=_around(_ad_lib, 0, 1),
        keeps=("techniques", "said"),
    ),
    Sign(
        key="syllable",
        group="breath",
        marks=(Syllable,),
        used=_has(Syllable),
        shown=_where_said(lambda p: bool(p.syllable)),
        keeps=("techniques", "said"),
    ),
    Sign(
        key="breathing",
        group="breath",
        marks=(BreathSign,),
        used=_has(BreathSign),
        shown=_where_said(lambda p: bool(p.breath)),
        keeps=("techniques", "said"),
    ),
)
