"""Where things are on a page: LilyPond's own SVG, read in staff spaces.

Cases are compiled together in one run, a score each. One unit of LilyPond's SVG is one staff space; groups carry
the class that a grob's `output-attributes` gives them. Heights are counted upwards from the middle of the staff.
"""

from __future__ import annotations

import re
import subprocess
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

from gesturesmith import paths
from gesturesmith.lilypond import LilyPond, find

_SVG = "{http://www.w3.org/2000/svg}"
_TRANSLATE = re.compile(r"translate\(([-\d.]+), ([-\d.]+)\)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")

HALF_HEAD = 0.6  # half the width of an x-head or black head of LilyPond's font, staff spaces


@dataclass(frozen=True)
class Place:
    """A head or accidental: its left edge and height."""

    x: float
    y: float

    @property
    def middle(self) -> float:
        return self.x + HALF_HEAD


@dataclass(frozen=True)
class Stretch:
    """One uninterrupted piece of a line: the ends of its curves in order, and all places drawn."""

    nodes: tuple[tuple[float, float], ...]
    drawn: tuple[tuple[float, float], ...]

    def middle(self, wavy: bool) -> tuple[tuple[float, float], ...]:
        """Nodes that lie on the line itself: of a wave every second one, where it crosses its middle."""
        return self.nodes[::2] if wavy else self.nodes


@dataclass(frozen=True)
class Picture:
    """One score."""

    points: tuple[Place, ...]
    accidentals: tuple[Place, ...]
    stretches: tuple[Stretch, ...]


def compile_svg(scores: list[str], folder: Path, extra: str = "") -> list[Picture]:
    """The pictures of some scores' music, each set on one line of a very long page."""
    lilypond = find(None)
    assert isinstance(lilypond, LilyPond), lilypond
    body = "\n".join(
        f'\\score {{ \\new Staff \\with {{ \\override Accidental.output-attributes = #\'((class . "acc")) '
        f"\\omit TimeSignature }} {{ {music} }} \\layout {{ ragged-right = ##t }} }}"
        for music in scores
    )
    text = (
        '\\version "2.24.0"\n\\language "english"\n\\include "gesturesmith.ily"\n'
        + extra
        + f"\\paper {{ indent = 0 tagline = ##f ragged-bottom = ##t paper-height = {30 * len(scores) + 60}\\mm\n"
        "paper-width = 400\\mm score-system-spacing = #'((basic-distance . 14) (minimum-distance . 14)) }\n" + body
    )
    (folder / "cases.ly").write_text(text, "utf-8")
    command = [
        str(lilypond.path),
        "-dbackend=svg",
        "-dno-point-and-click",
        "-s",
        "-I",
        str(paths.templates()),
        "cases.ly",
    ]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    assert "warning" not in done.stderr, done.stderr
    return _pictures((folder / "cases.svg").read_text("utf-8"), len(scores))


def _pictures(svg: str, count: int) -> list[Picture]:
    shapes = list(_shapes(ElementTree.fromstring(svg), "", 0.0, 0.0))
    lines = sorted({y for kind, y, _, shape in shapes if shape.tag == _SVG + "line" and _is_staff_line(shape)})
    middles = [lines[i + 2] for i in range(0, len(lines), 5)]
    assert len(middles) == count, f"{len(middles)} staves for {count} scores"
    found: list[dict[str, list]] = [{"gs-point": [], "acc": [], "gs-contour": []} for _ in middles]
    for kind, top, left, shape in shapes:
        if kind not in found[0] or shape.tag != _SVG + "path":
            continue
        if kind == "gs-contour":
            nodes, drawn = _curve(shape.get("d", ""), left, top)
            n = _nearest(middles, nodes[0][1])
            found[n][kind].append(Stretch(_up(nodes, middles[n]), _up(drawn, middles[n])))
        else:
            n = _nearest(middles, top)
            found[n][kind].append(Place(left, middles[n] - top))
    return [
        Picture(
            tuple(sorted(f["gs-point"], key=lambda p: p.x)),
            tuple(sorted(f["acc"], key=lambda p: p.x)),
            tuple(sorted(f["gs-contour"], key=lambda s: s.nodes[0][0])),
        )
        for f in found
    ]


def _shapes(element, kind: str, x: float, y: float):
    """Every shape with the class it stands in and its place. Scaled groups are left out: the brackets around a
    head where a line stops."""
    transform = element.get("transform", "")
    if element.tag == _SVG + "g" and transform.startswith("scale"):
        return
    kind = element.get("class", kind)
    if match := _TRANSLATE.match(transform):
        x, y = x + float(match[1]), y + float(match[2])
    if element.tag in (_SVG + "path", _SVG + "line"):
        yield kind, y, x, element
    for child in element:
        yield from _shapes(child, kind, x, y)


def _is_staff_line(line) -> bool:
    return float(line.get("x2")) > 5 and float(line.get("y2")) == 0 == float(line.get("y1"))


def _nearest(middles: list[float], y: float) -> int:
    return min(range(len(middles)), key=lambda n: abs(middles[n] - y))


type _Places = list[tuple[float, float]]


def _curve(d: str, left: float, top: float) -> tuple[_Places, _Places]:
    """The ends of a path's curves, and sixteen places along each."""
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
    """Points that a line drawn through everything (`uncut`) misses, by more than `height` up or down; at its two
    ends, by more than `reach` sideways."""
    wrong = []
    line = [place for stretch in picture.stretches for place in stretch.middle(wavy)]
    for place in picture.points:
        at = _height_at(line, place.middle)
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


def misses(picture: Picture, *, reach: float = 0.5) -> list[str]:
    """What is wrong with a line as it is printed: drawn over a head or accidental, or ending too far from one."""
    wrong = []
    drawn = [p for s in picture.stretches for p in s.drawn]
    for place in picture.points:
        box = (place.x, place.x + 2 * HALF_HEAD, place.y - 0.5, place.y + 0.5)
        nearest = min((_distance(p, box) for p in drawn), default=99.0)
        if nearest < 0.08:
            wrong.append(f"drawn over the head at x={place.x:.2f}")
        if nearest > 0.45 + reach + (1.1 if _has_accidental(picture, place) else 0):
            wrong.append(f"ends {nearest:.2f} from the head at x={place.x:.2f}")
    for accidental in picture.accidentals:
        box = (accidental.x, accidental.x + 0.7, accidental.y - 0.8, accidental.y + 0.8)
        if min((_distance(p, box) for p in drawn), default=99.0) < 0.02:
            wrong.append(f"drawn over the accidental at x={accidental.x:.2f}")
    return wrong


def _distance(place: tuple[float, float], box: tuple[float, float, float, float]) -> float:
    dx = max(box[0] - place[0], 0, place[0] - box[1])
    dy = max(box[2] - place[1], 0, place[1] - box[3])
    return (dx * dx + dy * dy) ** 0.5


def _has_accidental(picture: Picture, place: Place) -> bool:
    return any(0 < place.x - a.x < 1.6 and abs(a.y - place.y) < 0.3 for a in picture.accidentals)
