"""Outlines of everything printed on a staff, and what a contour line comes too close to.

A shape of LilyPond's SVG (a line, a bar, a polygon, a glyph) is represented by closely spaced places on its
outline.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from itertools import pairwise
from xml.etree import ElementTree

from golden.geometry import CONTOUR, _is_staff_line, _nearest, _shapes, _staves

_STEP = 0.1  # maximum distance between places of an outline, in staff spaces
_SVG = "{http://www.w3.org/2000/svg}"
_TOKEN = re.compile(r"[A-Za-z]|-?\d+(?:\.\d+)?")
_SCALE = re.compile(r"scale\(([-\d.]+), ([-\d.]+)\)")
_ARGUMENTS = {"m": 2, "l": 2, "h": 1, "v": 1, "c": 6, "s": 4}

# What a line must keep clear of; the classes are the names of the grobs.
KEPT_CLEAR = (
    "Accidental",
    "AccidentalCautionary",
    "Beam",
    "Clef",
    "Dots",
    "DynamicText",
    "Flag",
    "GestureWords",
    "Hairpin",
    "LedgerLineSpanner",
    "NoteHead",
    "Rest",
    "Script",
    "Stem",
    "StemTremolo",
    "TextScript",
)
OURS = ("gs-bracket", "gs-edge", "gs-second", "gs-above", "gs-row", "gs-point")
LINE_WORD = "gs-contour text"  # the word on a line
# Lines may cross staff lines and bar lines.
MARKED = "".join(f'\\override {g}.output-attributes = #\'((class . "{g}")) ' for g in KEPT_CLEAR)

type Place = tuple[float, float]


@dataclass(frozen=True)
class Block:
    """A printed thing: the class of its group, and places along its outline, y upwards from the staff's middle."""

    kind: str
    outline: tuple[Place, ...]

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.outline, strict=True)
        return min(xs), max(xs), min(ys), max(ys)


@dataclass(frozen=True)
class Staff:
    """One staff: everything printed on it, and the places along its contour lines."""

    unit: float
    blocks: tuple[Block, ...]
    lines: tuple[tuple[Place, ...], ...]


def staves(svg: str, names: tuple[str, ...] = (*KEPT_CLEAR, *OURS)) -> list[Staff]:
    """All staves of an SVG from the top, with everything of these classes."""
    shapes = list(_shapes(ElementTree.fromstring(svg), "", 0.0, 0.0))
    found = _staves(sorted({y for kind, y, _, shape in shapes if not kind and _is_staff_line(shape)}))
    blocks: list[list[Block]] = [[] for _ in found]
    lines: list[list[tuple[Place, ...]]] = [[] for _ in found]
    for within, top, left, shape in shapes:
        kind = LINE_WORD if within == CONTOUR and shape.tag == _SVG + "text" else within
        if kind != CONTOUR and kind not in names:
            continue
        outline = [(left + x, top + y) for x, y in outline_of(shape)]
        if not outline:
            continue
        n = _nearest(found, outline[0][1])
        up = tuple((x, found[n][0] - y) for x, y in outline)
        if kind == CONTOUR:
            lines[n].append(up)
        else:
            blocks[n].append(Block(kind, up))
    return [Staff(unit, tuple(b), tuple(s)) for (_, unit), b, s in zip(found, blocks, lines, strict=True)]


def outline_of(shape) -> list[Place]:
    """Places along the outline of a shape, from its own origin, y downwards."""
    number = lambda name: float(shape.get(name, 0))  # noqa: E731
    tag = shape.tag.removeprefix(_SVG)
    if tag == "rect":
        x0, y0 = number("x"), number("y")
        x1, y1 = x0 + number("width"), y0 + number("height")
        return _filled([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)])
    if tag == "line":
        return _filled([(number("x1"), number("y1")), (number("x2"), number("y2"))])
    if tag == "polygon":
        values = [float(v) for v in shape.get("points").split()]
        corners = list(zip(values[::2], values[1::2], strict=True))
        return _filled([*corners, corners[0]])
    if tag == "path":
        scale = _SCALE.search(shape.get("transform", ""))
        sx, sy = (float(scale[1]), float(scale[2])) if scale else (1.0, 1.0)
        return [(sx * x, sy * y) for x, y in _path(shape.get("d", ""), _STEP / abs(sx))]
    if tag == "text":
        # The SVG does not give the width of a text. Letters are at least this wide on average.
        size = number("font-size")
        wide = 0.35 * size * len("".join(shape.itertext()).strip())
        return _filled([(0.0, 0.0), (wide, 0.0), (wide, -0.5 * size), (0.0, -0.5 * size), (0.0, 0.0)])
    return []


def _filled(corners: list[Place], step: float = _STEP) -> list[Place]:
    """Corners with places in between."""
    places = corners[:1]
    for (x0, y0), (x1, y1) in pairwise(corners):
        n = max(1, math.ceil(math.hypot(x1 - x0, y1 - y0) / step))
        places += [(x0 + (x1 - x0) * k / n, y0 + (y1 - y0) * k / n) for k in range(1, n + 1)]
    return places


def _path(d: str, step: float) -> list[Place]:
    """The places of a path; capital letters count from the origin, small ones from the last place (SVG 1.1,
    8.3)."""
    places: list[Place] = []
    at = start = (0.0, 0.0)
    tokens = _TOKEN.findall(d)
    letter = "m"
    i = 0
    handle: Place = at
    while i < len(tokens):
        if tokens[i].isalpha():
            letter = tokens[i]
            i += 1
            if letter in "zZ":
                places += _filled([at, start], step)[1:]
                at = start
                continue
        count = _ARGUMENTS[letter.lower()]
        values = [float(v) for v in tokens[i : i + count]]
        i += count
        ox, oy = (0.0, 0.0) if letter.isupper() else at
        kind = letter.lower()
        if kind == "h":
            corners = [at, (ox + values[0], at[1])]
        elif kind == "v":
            corners = [at, (at[0], oy + values[0])]
        elif kind in "ml":
            corners = [at, (ox + values[0], oy + values[1])]
        else:
            pairs = [(ox + values[k], oy + values[k + 1]) for k in range(0, count, 2)]
            if kind == "s":
                pairs.insert(0, (2 * at[0] - handle[0], 2 * at[1] - handle[1]))
            corners = [_on_curve(at, *pairs, k / 8) for k in range(9)]
            handle = pairs[1]
        if kind == "m":
            at = start = corners[1]
            places.append(at)
            letter = "l" if letter == "m" else "L"
            continue
        places += _filled(corners, step)[1:]
        at = corners[-1]
    return places


def _on_curve(p0: Place, p1: Place, p2: Place, p3: Place, t: float) -> Place:
    u = 1 - t
    a, b, c, e = u**3, 3 * u * u * t, 3 * u * t * t, t**3
    return a * p0[0] + b * p1[0] + c * p2[0] + e * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + e * p3[1]


def near_misses(staff: Staff, gap: float) -> list[tuple[str, float, float]]:
    """Everything nearer to the middle of a contour line than `gap` staff spaces: (class, distance, x)."""
    found = []
    reach = gap * staff.unit
    for block in staff.blocks:
        x0, x1, y0, y1 = block.box
        near = [
            (x, y)
            for line in staff.lines
            for x, y in line
            if x0 - reach <= x <= x1 + reach and y0 - reach <= y <= y1 + reach
        ]
        if near:
            distance, x = min((math.hypot(x - a, y - b), x) for x, y in near for a, b in block.outline)
            inside = any(x0 < x < x1 and y0 < y < y1 for x, y in near) and block.kind == "NoteHead"
            if distance < reach or inside:
                found.append((block.kind, 0.0 if inside else distance / staff.unit, x))
    return found
