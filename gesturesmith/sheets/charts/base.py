"""The definition of a chart, and the common parts of engraved ones: rows of columns, a note or two over lines of
text."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import field, replace
from fractions import Fraction

from gesturesmith.backends.lilypond import note_name
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Clef
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.sheets._head import PageHeader, opening
from gesturesmith.units import UNISON, Interval, Spelling
from gesturesmith.values import frozen
from gesturesmith.wording import keys, said, together
from gesturesmith.wording import text as wording

# Of staves of the usual height, measured on pages: a row, a line of text below it, and a step of ledger lines; on
# the page, what the head, the legend and the margins take, and the legend in another language.
_ROW_MM, _LINE_MM, _STEP_MM = Fraction(15), Fraction(3), Fraction(7, 8)
_HEAD_MM, _LEGEND_MM = Fraction(95), Fraction(36)
_MIDDLE_STEPS = {"treble": 34, "alto": 28, "tenor": 26, "bass": 22}  # of the line in the middle, from C0
_LARGEST = Fraction(9, 7)
_MEANS = ("correction-lip", "correction-hand", "correction-slide")
_INTERVALS = {
    (0, 0): "", (1, 1): "m2", (1, 2): "M2", (2, 3): "m3", (2, 4): "M3", (3, 5): "P4", (3, 6): "A4", (4, 6): "d5",
    (4, 7): "P5", (5, 8): "m6", (5, 9): "M6", (6, 10): "m7", (6, 11): "M7", (7, 12): "P8", (8, 13): "m9",
    (8, 14): "M9", (14, 24): "P15",
}  # fmt: skip


@frozen(kw_only=True)
class Chart:
    """One kind of chart.

    key    its name for `--kind`
    body   the scores and texts of the chart, each a markup, without its head
    staff  height of its staves, relative to the usual height; if it depends on the instrument, a function
    title  its title, by language; if empty, `chart-KEY` in `wording`
    """

    key: str
    body: Callable[[Settings], tuple[LyText, ...]]
    staff: Fraction | Callable[[Settings], Fraction] = Fraction(1)
    title: Mapping[str, str] = field(default_factory=dict)


@frozen(kw_only=True)
class Column:
    """A column of a row: written notes side by side (two names of one pitch), and texts on the lines below.

    black     the heads are filled
    shut      the heads are in parentheses
    """

    notes: tuple[Spelling, ...]
    texts: tuple[str, ...]
    black: bool = False
    shut: bool = False


@frozen(kw_only=True)
class Row:
    """One staff of a chart. `label` is at its left; `clefs` are (clef, column before which it is printed)."""

    columns: tuple[Column, ...]
    clefs: tuple[tuple[Clef, int], ...]
    label: str = ""


def title(chart: Chart, settings: Settings) -> str:
    """The title of a chart, which is different without valves."""
    if chart.title:
        return together(chart.title[language] for language in settings.wording)
    key = f"chart-{chart.key}-{_means(settings.instrument)}"
    return said(key if key in keys(settings.wording[0]) else f"chart-{chart.key}", settings.wording)


def book(chart: Chart, settings: Settings, *, output: str, picture: bool = False) -> LyText:
    """A `\\book` called `output` (a name we choose); `picture`: as a single picture, not in pages."""
    size = chart.staff if isinstance(chart.staff, Fraction) else chart.staff(settings)
    settings = replace(settings, staff_mm=settings.staff_mm * size)
    parts = (paragraph(transposition(settings)), *chart.body(settings))
    if picture:
        return _picture(chart, settings, parts, output)
    head = PageHeader(title=title(chart, settings), subtitle=instrument_name(settings))
    placed = (part if part.startswith(r"\score") else code(f"\\markup {part}") for part in parts)
    return joined((opening(head, output, "gsChartPaper", settings), *placed, code("}\n")))


def _picture(chart: Chart, settings: Settings, parts: tuple[LyText, ...], output: str) -> LyText:
    width = float(settings.paper_mm[0])
    name = quoted(f"{title(chart, settings)}: {instrument_name(settings)}")
    return code(
        f"""\\gsCropped
\\book {{
\\header {{ {_score.header(title(chart, settings), "")} }}
\\paper {{ \\gsChartPicture
  paper-width = {width:g}\\mm
  {_score.staff_size(settings)}
}}
\\bookOutputName "{output}"
\\markup \\gs-picture {{ \\gs-chart-title {name} {" ".join(parts)} }}
}}
"""
    )


def _means(instrument: Instrument) -> str:
    """How notes are chosen: "valves", "slide", "single" with a hand in the bell, or "tube" with the lip alone."""
    return "tube" if instrument.means == "single" and not instrument.has_hand else instrument.means


def instrument_name(settings: Settings) -> str:
    """Which instrument the chart is of."""
    return together(settings.instrument.name_in(language) for language in settings.wording)


def text_has(column: Column, word: str) -> bool:
    """Whether a word stands below a note."""
    return any(word in text.split() or text.startswith(f"{word} ") for text in column.texts)


def legend(keys: Iterable[str], settings: Settings) -> LyText:
    """Sentences of `wording` in sequence, in the languages of the page."""
    means = settings.instrument.means
    return paragraph(together(" ".join(wording(key, one, means) for key in keys) for one in settings.wording))


def explained(chart: str, columns: Iterable[Column], settings: Settings) -> LyText:
    """The legend of a chart of notes: the text lines below them, and the signs that occur."""
    instrument = settings.instrument
    seen = tuple(columns)
    sides = {side.name for side in instrument.sides}
    keys = [f"chart-{chart}-legend-{_means(instrument)}"]
    if instrument.kind == "valves" and len(sides) > 1:
        keys.append("chart-sides")
    if instrument.kind == "slide" and len(sides) > 1:
        keys.append(
            "chart-attachments" if "T" not in sides else "chart-triggers" if len(sides) > 2 else "chart-trigger"
        )
    keys += ["chart-in-and-out"] * any(text_has(c, "short") or text_has(c, "long") for c in seen)
    after = ["chart-care"] * any(c.black for c in seen) + ["chart-missing"] * any(c.shut for c in seen)
    there = [means for means in _MEANS if any(text_has(c, said(means, settings.wording)) for c in seen)]
    told = (_corrected_by(there, language) for language in settings.wording)
    parts = []
    for language, correction in zip(settings.wording, told, strict=True):
        rows = [wording(key, language, instrument.means) for key in keys]
        rows += [correction] * bool(there) + [wording(key, language, instrument.means) for key in after]
        parts.append(" ".join(rows))
    return paragraph(together(parts))


def _corrected_by(means: Sequence[str], language: str) -> str:
    """What the numbers after "lip" and the like say, of those that occur."""
    *first, last = [wording(one, language) for one in means] or [""]
    named = f"{', '.join(first)} {wording('chart-or', language)} {last}" if first else last
    return wording("chart-corrected", language).replace("{means}", named)


def corrected(means: str, cents: int, settings: Settings) -> tuple[str, ...]:
    """What brings a note into tune, and by how many cents: "lip −30"; nothing if nothing has to."""
    if not means:
        return ()
    return (f"{said(f'correction-{means}', settings.wording)} {'+' if cents > 0 else '−'}{abs(cents)}",)


def transposition(settings: Settings) -> str:
    """How the written notes of the chart sound."""
    instrument = settings.instrument
    down = instrument.sounding.cents < 0
    sounding = -instrument.sounding if down else instrument.sounding
    key = "none" if instrument.sounding == UNISON else "lower" if down else "higher"
    return together(
        wording(f"transposition-{key}", language)
        .replace("{instrument}", instrument.part_in(language))
        .replace("{interval}", _interval(sounding, language))
        for language in settings.wording
    )


def _interval(size: Interval, language: str) -> str:
    name = _INTERVALS.get((size.steps, int(size.cents) // 100), "")
    return wording(f"interval-{name}", language) if name else ""


def paragraph(text: str) -> LyText:
    """Text across the page."""
    return code(f"\\gs-paragraph {quoted(text)}")


def clef_for(instrument: Instrument, lowest_cents: float) -> Clef:
    """The clef a copyist would choose for notes from a written pitch upwards."""
    return next((clef for clef, low in instrument.clefs if low <= lowest_cents), instrument.clefs[-1][0])


def score(row: Row, columns: int, *, layout: str) -> LyText:
    """A row as a separate score, with empty columns at its end up to `columns`, so that rows align."""
    starts = {column: clef for clef, column in row.clefs}
    music = []
    for number, column in enumerate(row.columns):
        # A clef inside a row takes half a column.
        clef = f'{"s2 " if number else ""}\\clef "{starts[number]}" ' if number in starts else ""
        music.append(clef + _heads(column))
    empty = columns - len(row.columns)
    music += [r"\gsNoStaff"] * bool(empty) + ["s1"] * empty
    label = f" instrumentName = \\markup \\gs-tube {quoted(row.label)}" if row.label else ""
    lines = max((len(c.texts) for c in row.columns), default=0)
    gaps = frozenset(column for column in starts if column)
    texts = "\n".join(_line(row.columns, n, gaps) for n in range(lines))
    return code(
        f"""\\score {{ <<
\\new Staff \\with {{ \\gsChartStaff{label} }} {{ {" ".join(music)} }}
{texts}
>> \\layout {{ \\{layout} }} }}"""
    )


def _heads(column: Column) -> str:
    """One head in the middle of its column, or two that share it. Durations add up to a whole note."""
    before = (r"\gsBlack " if column.black else "") + (r"\gsShut " if column.shut else "")
    if not column.notes:
        return "s1"
    if len(column.notes) == 1:
        return f"s4 {before}{note_name(column.notes[0])}2."
    return " ".join(f"{before}{note_name(note)}2" for note in column.notes[:2])


def _line(columns: Sequence[Column], number: int, gaps: frozenset[int]) -> LyText:
    cells = []
    for place, column in enumerate(columns):
        cells += [r"\skip 2"] * (place in gaps)
        text = column.texts[number] if number < len(column.texts) else ""
        cells.append(f"\\skip 4 \\markup \\gs-cell {quoted(text)} 2." if text else r"\skip 1")
    size = "gsChartText" if number == 0 else "gsChartSmall"
    return code(f"\\new Lyrics \\with {{ \\{size} }} \\lyricmode {{ {' '.join(cells)} }}")


def filling(rows: Sequence[Row], settings: Settings) -> Fraction:
    """The relative height of staves with which rows fill a page, to be read from a music stand; at most 9/7."""
    lines = sum(max(len(column.texts) for column in row.columns) for row in rows)
    needed = _ROW_MM * len(rows) + _LINE_MM * lines + _STEP_MM * sum(map(_beyond, rows))
    room = settings.paper_mm[1] - _HEAD_MM - _LEGEND_MM * (len(settings.wording) - 1)
    return min(_LARGEST, Fraction(int(42 * room / needed), 42))


def _beyond(row: Row) -> int:
    """How many steps of the staff the notes of a row reach beyond it, above and below."""
    steps = [note.steps for column in row.columns for note in column.notes]
    middle = _MIDDLE_STEPS[row.clefs[0][0]]
    return max(0, middle - 4 - min(steps)) + max(0, max(steps) - middle - 4)


def rows_of(columns: Sequence[Column], instrument: Instrument, most: int) -> tuple[Row, ...]:
    """Columns in rows of at most `most`, as even as possible, each in a single clef."""
    groups: list[tuple[Clef, list[Column]]] = []
    for column in columns:
        clef = clef_for(instrument, min(float(note.pitch_cents) for note in column.notes))
        if not groups or groups[-1][0] != clef:
            groups.append((clef, []))
        groups[-1][1].append(column)
    rows = []
    for clef, group in groups:
        count = -(-len(group) // most)
        size = -(-len(group) // count)
        rows += [Row(columns=tuple(group[n : n + size]), clefs=((clef, 0),)) for n in range(0, len(group), size)]
    return tuple(rows)
