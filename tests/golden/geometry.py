"""Positions on a page: LilyPond's own SVG, in staff spaces.

Cases are compiled together in one run, each a score. One unit of LilyPond's SVG is one staff space of an ordinary
staff; groups have the class given by the grob's `output-attributes`. Heights count upwards from the middle of the
staff.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import timing

from gesturesmith import paths
from gesturesmith.lilypond import LilyPond, find

_SVG = "{http://www.w3.org/2000/svg}"
_TRANSLATE = re.compile(r"translate\(([-\d.]+), ([-\d.]+)\)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_SHAPES = tuple(_SVG + tag for tag in ("path", "line", "rect", "polygon", "text"))
_STAFF_GAP = 3.0  # lines further apart, in staff spaces, belong to different staves

HALF_HEAD = 0.65  # half the width of an x-head or black head of LilyPond's font, staff spaces

# The things to find, by the class of their group.
POINT, CONTOUR, ROW = "gs-point", "gs-contour", "gs-row"
ACCIDENTAL, DOT, WORD, CLEF = "acc", "dot", "word", "clef"
_CLASSES = (POINT, CONTOUR, ROW, ACCIDENTAL, DOT, WORD, CLEF)
_NAMED = {
    "Accidental": ACCIDENTAL,
    "AccidentalCautionary": ACCIDENTAL,
    "Dots": DOT,
    "TextScript": WORD,
    "Clef": CLEF,
}


@dataclass(frozen=True)
class Place:
    """A head, sign or text: its left edge and height."""

    x: float
    y: float

    @property
    def middle(self) -> float:
        return self.x + HALF_HEAD


@dataclass(frozen=True)
class Stretch:
    """One uninterrupted piece of a line: the ends of its curves in order, and all places along it."""

    nodes: tuple[tuple[float, float], ...]
    drawn: tuple[tuple[float, float], ...]

    def middle(self, wavy: bool) -> tuple[tuple[float, float], ...]:
        """Nodes on the line itself: for a wave every second one, where it crosses its middle."""
        return self.nodes[::2] if wavy else self.nodes


@dataclass(frozen=True)
class Picture:
    """One staff. `unit` is its staff space, 1 at ordinary size."""

    unit: float
    points: tuple[Place, ...]
    accidentals: tuple[Place, ...]
    dots: tuple[Place, ...]
    stretches: tuple[Stretch, ...]
    rows: tuple[Place, ...]
    words: tuple[Place, ...]
    clefs: tuple[Place, ...]


def score(music: str, staff: str = "", layout: str = "ragged-right = ##t") -> str:
    """A score of one staff, with classes on the things to find."""
    marks = " ".join(
        f'\\override {grob}.output-attributes = #\'((class . "{name}"))' for grob, name in _NAMED.items()
    )
    context = f"\\new Staff \\with {{ {marks} \\omit TimeSignature {staff} }}"
    return f"\\score {{ {context} {{ {music} }} \\layout {{ {layout} }} }}"


def document(scores: list[str], extra: str = "") -> str:
    """Scores below each other on a page as long as needed."""
    return (
        '\\version "2.24.0"\n\\language "english"\n\\include "gesturesmith.ily"\n'
        + extra
        + f"\\paper {{ indent = 0 tagline = ##f ragged-bottom = ##t paper-height = {40 * len(scores) + 60}\\mm\n"
        "paper-width = 400\\mm score-system-spacing = #'((basic-distance . 16) (minimum-distance . 16))\n"
        "system-system-spacing = #'((basic-distance . 16) (minimum-distance . 16)) }\n" + "\n".join(scores)
    )


def run(text: str, folder: Path, program: Path | None = None, *, pages: bool = False) -> str:
    """The SVG of a document; "" if it has several `pages`. Any message from LilyPond is a failure."""
    if program is None:
        found = find(None)
        assert isinstance(found, LilyPond), found
        program = found.path
    (folder / "cases.ly").write_text(text, "utf-8")
    command = [
        str(program),
        "-dbackend=svg",
        "-dno-point-and-click",
        "-s",
        "-I",
        str(paths.templates()),
        "cases.ly",
    ]
    done = timing.run(command, cwd=folder, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    return "" if pages else (folder / "cases.svg").read_text("utf-8")


def compile_svg(scores: list[str], folder: Path, extra: str = "") -> list[Picture]:
    """The pictures of the staves of some scores."""
    folder.mkdir(exist_ok=True)
    return pictures(run(document(scores, extra), folder))


def pictures(svg: str) -> list[Picture]:
    """All staves of an SVG, from the top."""
    shapes = list(_shapes(ElementTree.fromstring(svg), "", 0.0, 0.0))
    staves = _staves(sorted({y for _, y, _, shape in shapes if _is_staff_line(shape)}))
    found: list[dict[str, list]] = [{name: [] for name in _CLASSES} for _ in staves]
    for kind, top, left, shape in shapes:
        if kind not in _CLASSES:
            continue
        if kind == CONTOUR and shape.tag == _SVG + "path":
            nodes, drawn = _curve(shape.get("d", ""), left, top)
            n = _nearest(staves, nodes[0][1])
            found[n][kind].append(Stretch(_up(nodes, staves[n][0]), _up(drawn, staves[n][0])))
        elif kind != CONTOUR:
            n = _nearest(staves, top)
            found[n][kind].append(Place(left, staves[n][0] - top))
    return [_picture(unit, f) for (_, unit), f in zip(staves, found, strict=True)]


def _picture(unit: float, found: dict[str, list]) -> Picture:
    def places(name: str) -> tuple[Place, ...]:
        return tuple(sorted(found[name], key=lambda p: p.x))

    stretches = tuple(sorted(found[CONTOUR], key=lambda s: s.nodes[0][0]))
    return Picture(
        unit=unit,
        points=places(POINT),
        accidentals=places(ACCIDENTAL),
        dots=places(DOT),
        stretches=stretches,
        rows=places(ROW),
        words=places(WORD),
        clefs=places(CLEF),
    )


def _staves(lines: list[float]) -> list[tuple[float, float]]:
    """The middle and the staff space of each staff, from the heights of all lines."""
    groups: list[list[float]] = []
    for y in lines:
        if groups and y - groups[-1][-1] < _STAFF_GAP:
            groups[-1].append(y)
        else:
            groups.append([y])
    # Three lines for low, middle and high, four half staff spaces apart.
    return [((g[0] + g[-1]) / 2, (g[-1] - g[0]) / 4) for g in groups]


def _shapes(element, kind: str, x: float, y: float):
    """Every shape and text with its class and place."""
    transform = element.get("transform", "")
    kind = element.get("class", kind)
    if match := _TRANSLATE.match(transform):
        x, y = x + float(match[1]), y + float(match[2])
    if element.tag in _SHAPES:
        yield kind, y, x, element
    for child in element:
        yield from _shapes(child, kind, x, y)


def _is_staff_line(shape) -> bool:
    if shape.tag != _SVG + "line":
        return False
    return float(shape.get("x2")) > 5 and float(shape.get("y2")) == 0 == float(shape.get("y1"))


def _nearest(staves: list[tuple[float, float]], y: float) -> int:
    return min(range(len(staves)), key=lambda n: abs(staves[n][0] - y))


type _Places = list[tuple[float, float]]


def _curve(d: str, left: float, top: float) -> tuple[_Places, _Places]:
    """The ends of a path's curves, with sixteen places along each."""
    nodes: _Places = []
    drawn: _Places = []
    for letter, numbers in re.findall(r"([MCL])([^MCLZz]*)", d):
        values = [float(v) for v in _NUMBER.findall(numbers)]
        pairs = [(left + values[i], top + values[i + 1]) for i in range(0, len(values), 2)]
        if letter in "ML":
            nodes += pairs
            drawn += pairs
            continue
        for i in range(0, len(pairs), 3):
            (x0, y0), (x1, y1), (x2, y2), (x3, y3) = nodes[-1], *pairs[i : i + 3]
            for k in range(1, 17):
                t, u = k / 16, 1 - k / 16
                a, b, c, e = u**3, 3 * u * u * t, 3 * u * t * t, t**3
                drawn.append((a * x0 + b * x1 + c * x2 + e * x3, a * y0 + b * y1 + c * y2 + e * y3))
            nodes.append((x3, y3))
    return nodes, drawn


def _up(places: _Places, middle: float) -> tuple[tuple[float, float], ...]:
    return tuple((x, middle - y) for x, y in places)


def off_points(picture: Picture, *, wavy: bool, height: float = 0.2, reach: float = 0.5) -> list[str]:
    """Points that a line drawn through everything (`uncut`) misses, by more than `height` vertically or, at its two
    ends, by more than `reach` horizontally."""
    wrong = []
    line = [place for stretch in picture.stretches for place in stretch.middle(wavy)]
    for place in picture.points:
        at = _height_at(line, place.x + HALF_HEAD * picture.unit)
        if at is None or abs(at - place.y) > height:
            wrong.append(f"at x={place.x:.2f} the line is at {at}, the point at {place.y:.2f}")
    for place, end in ((picture.points[0], line[0]), (picture.points[-1], line[-1])):
        if abs(place.middle - end[0]) > reach:
            wrong.append(f"the line ends at {end[0]:.2f}, its point is at {place.middle:.2f}")
    return wrong


def _height_at(line: list[tuple[float, float]], x: float) -> float | None:
    near = min(line, key=lambda p: abs(p[0] - x))
    for (x0, y0), (x1, y1) in pairwise(line):
        if x0 <= x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return near[1] if abs(near[0] - x) < 0.3 else None


def misses(picture: Picture, *, reach: float = 0.5, rise: float = 1.2) -> list[str]:
    """The faults of a line as printed: drawn over a head or accidental, or ending more than `reach` beyond the gap
    beside a head (its accidental or dot), or more than `rise` from it in total: a steep line must first get clear
    of a stem beside it."""
    wrong = []
    drawn = [p for s in picture.stretches for p in s.drawn]
    for place in picture.points:
        box = _head_box(picture, place)
        nearest = min(drawn, key=lambda p: _distance(p, box))
        if _distance(nearest, box) < 0.12 * picture.unit:
            wrong.append(f"drawn over the head at x={place.x:.2f}")
        more = 1.1 if _has_sign(picture, place) else 0
        if _aside(nearest, box) > 0.4 + reach + more or _distance(nearest, box) > rise + more:
            wrong.append(f"ends {_distance(nearest, box):.2f} from the head at x={place.x:.2f}")
    for accidental in picture.accidentals:
        box = (accidental.x, accidental.x + 0.7, accidental.y - 0.8, accidental.y + 0.8)
        if min((_distance(p, box) for p in drawn), default=99.0) < 0.1:
            wrong.append(f"drawn over the accidental at x={accidental.x:.2f}")
    return wrong


def uneven(picture: Picture, *, within: float = 0.12, between: float = 0.25) -> list[str]:
    """The faults of a wave: incomplete half waves; half waves that differ by more than a share `within` a stretch,
    or by more than `between` from one stretch to the next."""
    wrong = []
    means = []
    for stretch in picture.stretches:
        if (len(stretch.nodes) - 1) % 2:
            wrong.append(f"not a whole number of half waves at x={stretch.nodes[0][0]:.2f}")
        lengths = [
            ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 / picture.unit
            for a, b in pairwise(stretch.middle(True))
        ]
        means.append(sum(lengths) / len(lengths))
        if max(lengths) - min(lengths) > within * means[-1]:
            wrong.append(f"half waves of {min(lengths):.2f} to {max(lengths):.2f} at x={stretch.nodes[0][0]:.2f}")
    if means and max(means) > (1 + between) * min(means):
        wrong.append(f"half waves of {min(means):.2f} in one stretch, {max(means):.2f} in another")
    return wrong


def gaps(picture: Picture) -> list[float]:
    """The distances of the stretches' ends from the heads beside them, from left to right."""
    return [
        min(_distance(end, _head_box(picture, p)) for p in picture.points)
        for stretch in picture.stretches
        for end in (stretch.nodes[0], stretch.nodes[-1])
    ]


type _Box = tuple[float, float, float, float]


def _head_box(picture: Picture, place: Place) -> _Box:
    u = picture.unit
    return (place.x, place.x + 2 * HALF_HEAD * u, place.y - 0.5 * u, place.y + 0.5 * u)


def _aside(place: tuple[float, float], box: _Box) -> float:
    return max(box[0] - place[0], 0, place[0] - box[1])


def _distance(place: tuple[float, float], box: _Box) -> float:
    dx, dy = _aside(place, box), max(box[2] - place[1], 0, place[1] - box[3])
    return (dx * dx + dy * dy) ** 0.5


def _has_sign(picture: Picture, place: Place) -> bool:
    """Whether there is an accidental or a dot between a head and its line."""
    before = any(0 < place.x - a.x < 1.6 and abs(a.y - place.y) < 0.3 for a in picture.accidentals)
    return before or any(0 < d.x - place.x < 2.2 and abs(d.y - place.y) < 0.8 for d in picture.dots)
