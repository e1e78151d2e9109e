"""A passage over time: the air used since the last breath, and the effort owed, which rests pay back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from gesturesmith.diagnostics import Finding
from gesturesmith.evidence import Limit
from gesturesmith.pictures import svg
from gesturesmith.pictures.svg import CARE, FAINT, INK, REACH, REFUSED, SOFT, Point, box, path, words
from gesturesmith.pictures.told import shortened, told, verdict_colour
from gesturesmith.rules.base import PassageCase
from gesturesmith.rules.shared.account import account, breathing, moments, played_out
from gesturesmith.rules.shared.reading import plain

_LEFT, _TOP, _WIDTH, _HEIGHT, _BETWEEN = 64.0, 58.0, 560.0, 110.0, 34.0
_RIGHT, _NAMES = 92.0, 62.0
_ROOM = 1.15  # how much of the larger of curve and limit is shown
_COLUMNS = 94


def strain(passage: PassageCase, findings: Sequence[Finding] = (), verdict: str = "", *, bare: bool = False) -> str:
    """The picture as SVG; findings are told below it, unless it is `bare`: without title, verdict and findings.
    "" if nothing is played."""
    case = next((c for c in passage.cases if c is not None), None)
    if case is None:
        return ""
    air, effort = _air(passage), _effort(passage)
    seconds = max(air[-1][0], effort[-1][0]) or 1.0
    title = passage.passage.title or passage.passage.name
    parts = [] if bare else [words(shortened(title, verdict, _WIDTH), _LEFT, 22, font_size=15, font_weight="bold")]
    if verdict and not bare:
        colour = verdict_colour(verdict)
        parts.append(words(verdict, _LEFT + _WIDTH, 22, font_size=13, text_anchor="end", fill=colour))
    rows = (
        (air, case.instrument.limits.get("breath_litres"), "L", "litres of air since the last breath"),
        (effort, case.instrument.limits.get("effort_reserve_s"), "s", "effort owed, in seconds of plain playing"),
    )
    top = _TOP
    for curve, limit, unit, name in rows:
        parts += _row(curve, limit, unit, name, seconds, top)
        top += _HEIGHT + _BETWEEN
    parts += _items(passage, seconds, top - _BETWEEN)
    below = top - _BETWEEN + _NAMES
    lines = list(told(findings, _COLUMNS))
    shown = [] if bare else lines
    for row, (text, colour) in enumerate(shown):
        parts.append(words(text, _LEFT, below + 15 * (row + 1), fill=colour))
    most = max(value for _, value in air), max(value for _, value in effort)
    said = f"At most {plain(round(most[0], 1))} litres on one breath, and {plain(round(most[1]))} seconds owed. "
    height = below + 15 * (len(shown) + 1)
    said += " ".join(text.strip() for text, _ in lines)
    return svg.document(parts, _LEFT + _WIDTH + _RIGHT, height, f"{title}: breath and effort", said.strip())


def _air(passage: PassageCase) -> list[Point]:
    """(seconds, litres used)."""
    rows, now, before = [(0.0, 0.0)], 0.0, 0.0
    for one in breathing(passage):
        begins = one.litres if not one.moment.sounds else before
        rows += [(now, begins), (now + one.moment.seconds, one.litres)]
        now += one.moment.seconds
        before = 0.0 if one.taken else one.litres
        rows.append((now, before))
    return rows


def _effort(passage: PassageCase) -> list[Point]:
    """(seconds, effort owed)."""
    rows, now = [(0.0, 0.0)], 0.0
    lengths = _seconds(passage)
    for turn, (_, owed, _) in enumerate(account(passage)):
        now += lengths[turn]
        rows.append((now, owed))
    return rows


def _seconds(passage: PassageCase) -> dict[int, float]:
    """How long each item lasts in playing order, fermatas included."""
    found: dict[int, float] = {}
    for moment in moments(passage):
        found[moment.turn] = found.get(moment.turn, 0.0) + moment.seconds
    return found


def _row(
    curve: list[Point], limit: Limit | None, unit: str, name: str, seconds: float, top: float
) -> Iterator[str]:
    """One quantity over time, with its limits."""
    limits = []
    if limit is not None:
        limits.append((float(limit.narrow.value), CARE, "8 4", "with care above"))
        if limit.wide is not None:
            limits.append((float(limit.wide.value), REFUSED, "2 3", "the widest reading"))
    peak = max(value for _, value in curve)
    most = _ROOM * max([peak, *(value for value, *_ in limits if value < 3 * peak)]) or 1.0

    def place(point: Point) -> Point:
        return _LEFT + _WIDTH * point[0] / seconds, top + _HEIGHT * (1 - point[1] / most)

    yield words(name, _LEFT, top - 6, fill=SOFT)
    yield box(_LEFT, top, _WIDTH, _HEIGHT, fill="#fafbfc", stroke=SOFT)
    area = [place((0.0, 0.0)), *map(place, curve), place((seconds, 0.0))]
    yield path(area, "none", 0, fill=REACH, fill_opacity="0.2")
    yield path([place(point) for point in curve], INK, 1.8)
    for value, colour, dash, said in limits:
        if value <= most:
            y = place((0.0, value))[1]
            yield path([(_LEFT, y), (_LEFT + _WIDTH, y)], colour, 1, stroke_dasharray=dash)
            yield words(said, _LEFT + _WIDTH + 4, y + 4, font_size=9, fill=SOFT)
            yield words(f"{plain(value)} {unit}", _LEFT - 6, y + 4, text_anchor="end", font_size=10, fill=colour)
    if all(value > most for value, *_ in limits) and peak:
        y = place((0.0, peak))[1]
        yield words(f"{plain(round(peak, 1))} {unit}", _LEFT - 6, y + 4, text_anchor="end", font_size=10, fill=SOFT)
    yield words("0", _LEFT - 6, top + _HEIGHT + 4, text_anchor="end", font_size=10, fill=SOFT)


def _items(passage: PassageCase, seconds: float, top: float) -> Iterator[str]:
    """What is played when: a tick for each item, its name if there is room, and the seconds at the end."""
    now, free = 0.0, 0.0
    lengths = _seconds(passage)
    for turn, (item, case) in enumerate(played_out(passage)):
        x = _LEFT + _WIDTH * now / seconds
        yield path([(x, top), (x, top + 5)], FAINT if case is None else SOFT, 1)
        now += lengths[turn]
        room = _WIDTH * (now / seconds) - (x - _LEFT)
        if item.played and x >= free and room > 8:
            name = item.played
            turned = f"rotate(35 {svg.number(x)} {svg.number(top + 16)})"
            yield words(name[:10] + ("…" if len(name) > 10 else ""), x, top + 16, font_size=10, transform=turned)
            free = x + 14
    yield words(f"{plain(round(now, 1))} s", _LEFT + _WIDTH + 4, top + 4, font_size=10, fill=SOFT)
