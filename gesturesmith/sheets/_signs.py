"""The signs a page may have to explain: when each is used, and which points of a gesture show it best.

What is printed is read from the score itself, whose vocabulary is the commands of the stencils; where a sign means
something only together with the gesture, from that. Techniques have entries of their own and are not listed here.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from gesturesmith.engrave.heads import look_head, on_page
from gesturesmith.engrave.music import Music
from gesturesmith.model.gesture import ContourPoint, Gesture
from gesturesmith.model.piece import Settings
from gesturesmith.rules.base import Case
from gesturesmith.values import frozen

_QUOTED = re.compile(r'"(?:\\.|[^"\\])*"')
_SMALL = re.compile(r"\\gsSmall\s+(?!\s*\\gsDiamond)")  # the sung line has small diamonds
_SHORT = 2  # lines a picture shows after each other


@frozen(kw_only=True)
class Use:
    """A gesture as it stands in a part, with the settings of its file.

    commands   the score's text without any words in it: only commands and notes are left
    """

    case: Case
    music: Music
    settings: Settings
    commands: str

    @property
    def gesture(self) -> Gesture:
        return self.case.gesture

    def first(self, wanted: Callable[[ContourPoint], bool]) -> int | None:
        """The first sounding point that is as wanted."""
        points = enumerate(self.gesture.points)
        return next((i for i, p in points if p.kind != "silence" and wanted(p)), None)

    @property
    def start(self) -> int:
        """The first point that sounds."""
        return self.first(lambda point: True) or 0

    def until(self, most: int) -> int:
        """The last of the first `most` points that sound, none of them after a silence."""
        start, points = self.start, self.gesture.points
        silent = (i for i, p in enumerate(points) if i > start and p.kind == "silence")
        return min(start + most, next(silent, len(points))) - 1


def use(case: Case, music: Music, settings: Settings) -> Use:
    """A gesture of a file with its music."""
    return Use(case=case, music=music, settings=settings, commands=_QUOTED.sub('""', music.ly))


type Stretch = tuple[int, int]


@frozen(kw_only=True)
class Sign:
    """A sign with the remark that explains it.

    key     its name is `sign-KEY` in `wording`, its remark `remark-KEY`
    group   kind of sign, `group-KEY` in `wording`
    used    whether a gesture uses it
    shown   the first and last point of it that show the sign
    keeps   what an excerpt must keep for it: "techniques", "dynamics", "band"
    """

    key: str
    group: str
    used: Callable[[Use], bool]
    shown: Callable[[Use], Stretch | None]
    keeps: tuple[str, ...] = ()


def says(pattern: str) -> Callable[[Use], bool]:
    found = re.compile(pattern)
    return lambda use: found.search(use.commands) is not None


def _point(wanted: Callable[[ContourPoint], bool]) -> Callable[[Use], Stretch | None]:
    def shown(use: Use) -> Stretch | None:
        index = use.first(wanted)
        return None if index is None else (index, index)

    return shown


def _start(points: int) -> Callable[[Use], Stretch | None]:
    return lambda use: (use.start, use.until(points))


def _line(kind: str, growth: str | None = None) -> Callable[[Use], Stretch | None]:
    """From a line of a kind on, as long as the same goes on and a picture has room."""

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


def _niente(use: Use) -> Stretch | None:
    """The end of the gesture where the sound goes to nothing, or its beginning."""
    last = len(use.gesture.points) - 1
    if use.gesture.dynamics and use.gesture.dynamics[0].level == "n":
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
    """A diamond that the techniques bring: about a pitch, or at a height, it gives way to an x or a triangle."""
    return not point.about and not point.extreme and look_head(point.techniques) == "diamond"


def is_about(use: Use) -> bool:
    """x-heads that stand for a pitch: those of strokes without pitch are explained with the stroke."""
    return says(r"\\gsX\b")(use) and any(p.about for p in use.gesture.sounding_points)


is_quarter_tone = says(r"\b[a-g]t?q[sf][',]*\d")


def _quarter_tones(form: str) -> Callable[[Use], bool]:
    return lambda use: use.settings.accidentals == form and is_quarter_tone(use)


def _fans(use: Use) -> bool:
    return use.gesture.attacks is not None and use.gesture.attacks.shape != ""


SIGNS = (
    Sign(key="approximate", group="heads", used=is_about, shown=_point(lambda p: p.about and not p.extreme)),
    Sign(
        key="highest", group="heads", used=says(r"\\gsTriangleUp"), shown=_point(lambda p: p.extreme == "highest")
    ),
    Sign(
        key="lowest", group="heads", used=says(r"\\gsTriangleDown"), shown=_point(lambda p: p.extreme == "lowest")
    ),
    Sign(
        key="slash-head",
        group="heads",
        used=says(r"\\gsSlash"),
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
    Sign(key="stops", group="heads", used=says(r"\\gsStops"), shown=_around(lambda p: p.stops, 1, 0)),
    Sign(
        key="stemless",
        group="heads",
        used=lambda use: not use.gesture.in_seconds and use.first(_passes) is not None,
        shown=_around(_passes, 1, 1),
    ),
    Sign(
        key="small-start",
        group="heads",
        used=lambda use: use.gesture.in_seconds and _SMALL.search(use.commands) is not None,
        shown=lambda use: (use.start, use.until(2)),
        keeps=("techniques",),
    ),
    Sign(key="wavy", group="lines", used=says(r"style \. wavy"), shown=_line("wavy")),
    Sign(key="growing", group="lines", used=says(r"growth \. growing"), shown=_line("wavy", "growing")),
    Sign(key="fading", group="lines", used=says(r"growth \. fading"), shown=_line("wavy", "fading")),
    Sign(key="straight", group="lines", used=says(r"style \. plain\)(?! \(arrow)"), shown=_line("straight")),
    Sign(key="arrow", group="lines", used=says(r"\(arrow \. #t\)"), shown=_line("arrow")),
    Sign(key="broken", group="lines", used=says(r"style \. broken"), shown=_line("broken")),
    Sign(key="dotted", group="lines", used=says(r"style \. dotted"), shown=_line("dotted")),
    Sign(
        key="gradual",
        group="lines",
        used=lambda use: use.first(_turns) is not None,
        shown=_around(_turns, 1, 0),
        keeps=("techniques",),
    ),
    Sign(key="band", group="pitch", used=says(r"\\gsBand\b"), shown=_start(3), keeps=("band",)),
    Sign(key="lines", group="pitch", used=lambda use: use.music.staff_lines == 3, shown=_start(3)),
    Sign(
        key="second-note",
        group="pitch",
        used=says(r"\\gsSecond\b"),
        shown=_point(lambda p: any(t.trill == "neighbour" for t in p.techniques)),
        keeps=("techniques",),
    ),
    Sign(key="quarter-tones-stein", group="pitch", used=_quarter_tones("stein"), shown=_at(_quarter)),
    Sign(key="quarter-tones-arrows", group="pitch", used=_quarter_tones("arrows"), shown=_at(_quarter)),
    Sign(key="cents", group="pitch", used=says(r"\\gs(Cents|Tuned)\b"), shown=_at(_tuned)),
    Sign(key="seconds", group="time", used=lambda use: use.gesture.in_seconds, shown=_start(3)),
    Sign(
        key="beats",
        group="time",
        used=lambda use: not use.gesture.in_seconds and says(r"\\gsLength\b")(use) and not _fans(use),
        shown=_start(4),
    ),
    Sign(key="accelerating", group="time", used=says(r"\\gsFeather #RIGHT"), shown=_start(100)),
    Sign(key="slowing", group="time", used=says(r"\\gsFeather #LEFT"), shown=_start(100)),
    Sign(key="niente", group="time", used=says(r"\\gsNiente"), shown=_niente, keeps=("dynamics",)),
)
