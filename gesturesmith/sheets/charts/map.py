"""The map: every technique over the range, with the checker's verdicts: playable, with care, or not as written."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith import techniques
from gesturesmith.diagnostics import Verdict
from gesturesmith.exercises.probes import Reach, reach, written_range
from gesturesmith.instruments.base import Instrument
from gesturesmith.lytext import LyText, code, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets.charts.base import Chart, paragraph
from gesturesmith.techniques.base import GROUP_OF_LAYER, LAYERS, Technique
from gesturesmith.values import frozen
from gesturesmith.wording import said, technique_title, together
from gesturesmith.wording import text as wording

_LETTERS = {Verdict.PLAYABLE: "f", Verdict.WITH_CARE: "c", Verdict.NOT_AS_WRITTEN: "n"}
_STAFF = Fraction(5, 6)  # sixty techniques on one page
_ON_A_PAGE = 64  # rows; a longer map has its head again
_NAMED = ("C", "G")  # letters of the naturals named above the columns


@frozen(kw_only=True)
class Survey:
    """What an instrument can do.

    rows      techniques with a pitch, each with its verdict on every written semitone of the widest range
    unpitched techniques without a pitch, which do not depend on the register
    missing   techniques refused on every note
    rare      techniques of a mute that is rarely made for the instrument, whatever the checker says of them
    """

    rows: tuple[tuple[Technique, tuple[Reach, ...]], ...]
    unpitched: tuple[Technique, ...]
    missing: tuple[Technique, ...]
    rare: tuple[Technique, ...] = ()


def survey(instrument: Instrument) -> Survey:
    """Ask the checker about every technique, by layer, on every note."""
    found = [techniques.get(key) for key in techniques.names()]
    found.sort(key=lambda t: (LAYERS.index(t.layer), t.key))
    # Harmon mutes are for trumpets and trombones (common practice): a hand has to reach their stems.
    without = instrument.has_hand or not instrument.bell_in_reach
    rare = tuple(technique for technique in found if technique.of_mute and without)
    reached = [(technique, reach(technique, instrument)) for technique in found if technique not in rare]
    there = [(t, row) for t, row in reached if any(r.verdict is not Verdict.NOT_AS_WRITTEN for r in row)]
    return Survey(
        rows=tuple((t, row) for t, row in there if t.pitched != "none"),
        unpitched=tuple(t for t, _ in there if t.pitched == "none"),
        missing=tuple(t for t, row in reached if (t, row) not in there),
        rare=rare,
    )


def _body(settings: Settings) -> tuple[LyText, ...]:
    instrument = settings.instrument
    found = survey(instrument)
    notes = written_range(instrument, widest=True)
    registers = _registers(instrument)
    names = " ".join(
        f"({n + 0.5:g} . {quoted(note.name)})"
        for n, note in enumerate(notes)
        if note.letter in _NAMED and not note.alter
    )
    language = settings.wording[0]  # a register may be too narrow for two names
    heads = " ".join(
        f"({first} {end} . {quoted(wording(f'register-{name}', language))})" for first, end, name in registers
    )
    lines = " ".join(str(n) for n in (0, *(end for _, end, _ in registers)))
    head = code(f"\\gs-map-head #'({heads}) #'({names}) #{len(notes)}")
    parts = [head]
    again = len(found.rows) // 2 if len(found.rows) > _ON_A_PAGE else len(found.rows)
    group: str = LAYERS[0]  # ordinary playing comes first and needs no heading
    for technique, row in found.rows:
        mine = GROUP_OF_LAYER.get(technique.layer, technique.layer)
        above = quoted("" if mine == group else said(f"group-{mine}", settings.wording, settings.instrument.means))
        if mine != group and len(parts) > again:  # on the next page, or half way down
            parts.append(head)
            again = len(found.rows)
        group = mine
        cells = "".join(_LETTERS[r.verdict] for r in row)
        label = quoted(_title(technique, settings))
        parts.append(code(f'\\gs-map-row {above} {label} "{cells}" #\'({lines})'))
    words = " ".join(quoted(said(f"verdict-{verdict.value}", settings.wording)) for verdict in Verdict)
    parts.append(code(f"\\column {{ \\vspace #0.5 \\gs-map-key {words} }}"))
    parts += [paragraph(_listed(key, row, settings)) for key, row in _aside(found)]
    return tuple(parts)


def _aside(found: Survey) -> tuple[tuple[str, tuple[Technique, ...]], ...]:
    rows = (("map-unpitched", found.unpitched), ("map-rare", found.rare), ("map-missing", found.missing))
    return tuple((key, row) for key, row in rows if row)


def _listed(key: str, row: tuple[Technique, ...], settings: Settings) -> str:
    return together(
        wording(key, language).replace("{techniques}", ", ".join(technique_title(t, language) for t in row))
        for language in settings.wording
    )


def _title(technique: Technique, settings: Settings) -> str:
    return together(technique_title(technique, lang) for lang in settings.wording)


def _registers(instrument: Instrument) -> tuple[tuple[int, int, str], ...]:
    """The registers of the columns: first column, last column plus one, and name."""
    notes = written_range(instrument, widest=True)
    names = [instrument.register_of(note.pitch_cents + instrument.sounding.cents).name for note in notes]
    starts = [n for n, name in enumerate(names) if n == 0 or name != names[n - 1]]
    return tuple((a, b, names[a]) for a, b in zip(starts, [*starts[1:], len(notes)], strict=True))


CHART = Chart(key="map", body=_body, staff=_STAFF)
