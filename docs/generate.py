"""Writes techniques.md, rules.md, difficulty.md and instruments.md of this folder. `--check` only compares.

python docs/generate.py [--check]
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from gesturesmith import instruments, rules, techniques
from gesturesmith.difficulty.quantities import QUANTITIES, Quantity
from gesturesmith.evidence import Limit, Sourced
from gesturesmith.explain import difficulty as explain_difficulty
from gesturesmith.explain.limits import CURVE, FAR_WORDS, refused_side, wrong_side
from gesturesmith.explain.rules import rule_evidence
from gesturesmith.instruments.base import Instrument
from gesturesmith.rules._doc import HEADINGS, sections
from gesturesmith.rules.base import Rule
from gesturesmith.techniques.base import LAYERS, LIMIT_UNITS, PLAIN_END, Look, Technique
from gesturesmith.units import spell

DOCS = Path(__file__).parent
MADE = "<!-- Made by docs/generate.py from the code: change the code, then run it again. -->"
LAYER_TITLES = {
    "none": "None",
    "motion": "How the pitch moves",
    "edge-in": "Edges of a note: into it",
    "edge-off": "Edges of a note: off it",
    "valves": "Valves or slide",
    "bell": "Bell",
    "tone": "Mouth: the tone",
    "tongue": "Mouth: the tongue",
    "voice": "Mouth: throat and voice",
    "lip": "Mouth: the lips",
    "attack": "How a note begins",
}
LANGUAGES = {"en": "English", "de": "German", "fr": "French", "it": "Italian"}
PITCHED = {
    "exact": "exact pitches can be asked for",
    "about": "the pitch is approximate by nature: write `x` before the notes",
    "none": "no pitch: heights only mean lower or higher",
}
RULE_GROUPS = {
    "2": "Harmonic series and range",
    "3": "Valves, hand, and time to change",
    "4": "Response",
    "5": "Register",
    "6": "Breath and endurance",
    "7": "Notation",
    "8": "Export",
}


def cell(text: object) -> str:
    """Text for one cell of a table."""
    return str(text).replace("|", "\\|").replace("\n", " ")


def table(head: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join("| " + " | ".join(cell(c) for c in line) + " |" for line in lines)


def value_text(value: Any, unit: str, *, pitch: bool = False) -> str:
    """A value of a limit as people read it; a pitch in cents by its sounding name."""
    if isinstance(value, tuple):
        joined = ", " if unit == "register" else " to "
        return joined.join(value_text(v, "", pitch=pitch) for v in value) + value_unit(unit, pitch)
    if pitch:
        return f"sounding {spell(value).name}"
    number = f"{value:g}" if isinstance(value, int | float) else str(value)
    return number + value_unit(unit, pitch)


def value_unit(unit: str, pitch: bool) -> str:
    return "" if not unit or pitch or unit in ("level", "register") else f" {unit}"


def evidence_text(sourced: Sourced[Any]) -> str:
    return f"{sourced.kind.value}: {sourced.source}"


def limit_rows(limits: dict[str, Limit]) -> Iterable[tuple[object, ...]]:
    """One row a limit: name, caution beyond, refused beyond, evidence."""
    for name in sorted(limits):
        limit = limits[name]
        pitch = name.endswith(("_lowest_cents", "_highest_cents"))
        wide = limit.wide
        evidence = evidence_text(limit.narrow) + (f"; widest, {evidence_text(wide)}" if wide is not None else "")
        side = wrong_side(name)
        narrow = value_text(limit.narrow.value, limit.unit, pitch=pitch)
        refused = "never"
        if wide is not None:
            refused = f"{refused_side(name, wide)} {value_text(wide.value, limit.unit, pitch=pitch)}"
        yield f"`{name}`", f"{side} {narrow}" if side else f"({narrow})", refused if side else "", evidence


LIMIT_HEAD = ("limit", "with care", "not as written", "evidence")


def look_text(look: Look) -> str:
    """What is printed, in words."""
    parts = []
    if look.head != "auto":
        parts.append(f"{look.head}-shaped noteheads" if look.head != "x" else "x-noteheads")
    if look.word:
        parts.append(f"“{look.word}”" + (" with a dashed line and a hook" if look.extent == "span" else ""))
    if look.line_word:
        parts.append(f"“{look.line_word}” on the line")
    if look.sign:
        parts.append(f"then “{look.sign}”")
    named = {
        "stopped": "+ over every note",
        "half-stopped": "the half-closed sign over every note",
        "double-dots": "two dots over the note",
        "triple-dots": "three dots over the note",
        "bend": "a V after the note",
        "hand": "hand signs with an arrow between them",
        "trill": "the trill sign",
        "tremolo": "a tremolo between two heads",
    }
    parts += [named[name] for name in (look.script, look.motion, look.trill) if name]
    if look.edge:
        parts.append(f"the {look.edge} at the edge of the note")
    if look.tremolo:
        parts.append("three slashes on the stem")
    if look.fingering:
        parts.append("the fingering below every note")
    if look.small_start:
        parts.append("a small head where it starts unmeasured")
    if look.sung_head:
        parts.append(f"{look.sung_head} heads for the sung line")
    ends = ["“o” over the next note"] if look.cancel_script == "open" else []
    ends += [f"“{look.cancel}”"] if look.cancel else []
    said = "; ".join(parts) or "nothing is added"
    alone = f"; with “{look.named_end}” where something else is in force" if look.cancel == PLAIN_END else ""
    return said + (f". It ends with {' or '.join(ends)}{alone}." if ends else ".")


def points_text(technique: Technique) -> str:
    fewest, most = technique.points
    points = f"{fewest} or more" if most is None else (str(fewest) if most == fewest else f"{fewest} to {most}")
    lines = ", ".join(technique.lines) if technique.lines else "any"
    return f"points: {points}; lines: {lines}" + ("; a sliding line is needed" if technique.needs_line else "")


PLACES = {"slide": "with a slide", "single": "with one tube only", "up": "upward", "sung": "with a line to sing"}


def technique_section(technique: Technique) -> str:
    """One technique: what it is, how it is written, seen, judged and explained."""
    parts = [
        f"### {technique.title['en']}: `{technique.key}`",
        technique.texts["en"],
        f"- Moves: {technique.moves}. It takes {points_text(technique)}.",
        f"- Pitch: {PITCHED[technique.pitched]}.",
    ]
    if technique.kin:
        parts.append(f"- In its place, where it cannot be had: {', '.join(f'`{key}`' for key in technique.kin)}.")
    if technique.needs:
        parts.append(f"- Needs: {technique.needs}.")
    if technique.tiring or technique.loud:
        said = [w for w, yes in (("tiring", technique.tiring), ("loud", technique.loud)) if yes]
        parts.append(f"- Care: {' and '.join(said)}.")
    parts.append(f"- On the page: {look_text(technique.look)}")
    parts.append(f"- Why so: {technique.look.reason}")
    parts += [f"- Not with `{key}`: {why}." for key, why in sorted(technique.excludes.items())]
    parts += [f"- Source: {s.value} ({evidence_text(s)})." for s in technique.sources]
    text = "\n".join([parts[0], "", parts[1], "", *parts[2:]])
    if technique.limits:
        text += "\n\n" + table(LIMIT_HEAD, limit_rows(technique.limits))
    wordings = [(LANGUAGES[code], technique.title[code], technique.texts[code]) for code in LANGUAGES]
    for place, texts in technique.texts_where.items():
        wordings += [(f"{LANGUAGES[code]}, {PLACES[place]}", "", texts[code]) for code in LANGUAGES]
    return text + "\n\n" + table(("wording", "title", "for the player"), wordings)


def techniques_page() -> str:
    found = [techniques.get(name) for name in techniques.names()]
    parts = [
        "# Techniques",
        MADE,
        "At most one technique of each layer may be joined with `+`; the edges of a note join with every other "
        "layer. The signs and words on the page are the same in every language; the texts for the player follow "
        "the page's `wording`. German, French and Italian are by our best judgement.",
        "Limits from memory and of our own judgement lead at most to *with care*. A value in brackets is only "
        "reckoned with. What depends on the instrument (attacks a second by register, widths of bends) stands with "
        "the [instruments](instruments.md).",
        "Names of limits: " + ", ".join(f"`{name}` ({unit})" for name, unit in sorted(LIMIT_UNITS.items())) + ".",
    ]
    for layer in LAYERS:
        parts.append(f"## {LAYER_TITLES[layer]}")
        parts += [technique_section(t) for t in found if t.layer == layer]
    return "\n\n".join(parts) + "\n"


def rule_section(rule: Rule) -> str:
    """One rule from its docstring; the examples as gesture files."""
    said = sections(rule.doc)
    first = rule.doc.strip().partition("\n")[0]
    parts = [f"### `{rule.name}` ({rule.code}, {rule.severity.value} unless it says otherwise)", first]
    for name in HEADINGS:
        if name in ("Fires", "Passes"):
            parts.append(f"{name}:\n\n```\n{said[name]}\n```")
        else:
            parts.append(f"**{name}**: {re.sub(r'\s*\n\s*', ' ', said[name]).strip()}")
    parts.append(f"**Source**, in the first example: {'; '.join(rule_evidence(rule))}")
    return "\n\n".join(parts)


def rules_page() -> str:
    parts = [
        "# Rules",
        MADE,
        "What the checker looks for. A finding is *refused*, a *caution* or *advice*; `allow` with a rule's name "
        "and a reason silences a caution. Each rule's examples are run as its tests. `gesturesmith explain NAME` "
        "prints the same.",
    ]
    found = rules.all_rules()
    for digit, title in RULE_GROUPS.items():
        group = [r for r in found if r.code[2] == digit]
        if group:
            parts.append(f"## {digit}xx: {title}")
            parts += [rule_section(r) for r in group]
    if rules.RETIRED:
        parts += ["## No longer used", table(("code", "instead"), sorted(rules.RETIRED.items()))]
    return "\n\n".join(parts) + "\n"


def quantity_row(quantity: Quantity) -> tuple[object, ...]:
    """One row of the table of difficulty."""
    return (
        f"`{quantity.name}`",
        quantity.measures,
        explain_difficulty.ease_words(quantity),
        explain_difficulty.care_words(quantity),
        f"{quantity.weight.value:g}",
        "; ".join(evidence_text(s) for s in explain_difficulty.evidence(quantity)),
    )


def difficulty_page() -> str:
    head = ("quantity", "what is measured", "comfortable up to", "half its share at", "weight", "evidence")
    parts = [
        "# Difficulty",
        MADE,
        *explain_difficulty.introduction(),
        "Limits by name stand with the [instruments](instruments.md) and the [techniques](techniques.md). "
        "`gesturesmith explain difficulty` prints the same; `gesturesmith check --json` gives every gesture its "
        "`difficulty`, and under `demands` what makes it.",
        table(head, (quantity_row(q) for q in QUANTITIES)),
    ]
    return "\n\n".join(parts) + "\n"


def transposition_text(instrument: Instrument) -> str:
    semitones = instrument.sounding.cents / 100
    if not semitones:
        return "sounds as written"
    return f"sounds {abs(semitones)} semitones {'below' if semitones < 0 else 'above'} what is written"


def instrument_section(instrument: Instrument) -> str:
    """One instrument: range, registers, tubes, chart, limits, each with its evidence."""
    usual, widest = instrument.usual_range, instrument.widest_range
    parts = [
        f"## {instrument.name}: `{instrument.key}`",
        f"“{instrument.part_name}”, {transposition_text(instrument)}.",
        table(
            ("range", "sounding", "evidence"),
            [
                (word, value_text(r.value, "", pitch=True).replace("to sounding", "to"), evidence_text(r))
                for word, r in (("usual: with care outside", usual), ("widest: not as written outside", widest))
            ],
        ),
        table(
            ("register", "written", "evidence"),
            [(r.name, f"{r.low.name} to {r.high.name}", evidence_text(r.evidence)) for r in instrument.registers],
        ),
        table(
            ("tube", "first partial, sounding", "length", "to the bell and back", "usual partials", "widest"),
            [
                (
                    t.name,
                    spell(t.fundamental_cents).name,
                    f"{t.length_m:.2f} m",
                    f"{1000 * t.round_trip_s:.1f} ms",
                    "{} to {}".format(*t.partials),
                    "{} to {}".format(*t.widest_partials),
                )
                for t in instrument.tubes
            ],
        ),
        f"Standard chart ({evidence_text(instrument.chart_evidence)}):",
        table(("written", "fingering"), [(spell(c).name, tube) for c, tube in sorted(instrument.chart.items())]),
        table(LIMIT_HEAD, limit_rows(instrument.limits)),
    ]
    return "\n\n".join(parts)


def instruments_page() -> str:
    parts = [
        "# Instruments",
        MADE,
        "Every number with its evidence: *derived* from a definition or a law, *published*, *practice* of players "
        "and teachers, from *memory*, or of our own (*house*). The last two lead at most to *with care*. A value "
        "in brackets is only reckoned with: nothing is measured against it by itself. *Far* is "
        f"{FAR_WORDS}. Limits of bends hold in the middle of their register; {CURVE}.",
        *(instrument_section(instruments.get(name)) for name in instruments.names()),
    ]
    return "\n\n".join(parts) + "\n"


PAGES: dict[str, Callable[[], str]] = {
    "techniques.md": techniques_page,
    "rules.md": rules_page,
    "difficulty.md": difficulty_page,
    "instruments.md": instruments_page,
}


def stale(folder: Path = DOCS) -> list[str]:
    """The pages that are missing or not what the code gives."""
    return [
        name
        for name, make in PAGES.items()
        if not (folder / name).is_file() or (folder / name).read_text("utf-8") != make()
    ]


def main(arguments: list[str]) -> int:
    if arguments == ["--check"]:
        old = stale()
        for name in old:
            print(f"docs/{name} is not what the code gives: run python docs/generate.py")
        return 1 if old else 0
    if arguments:
        print(__doc__)
        return 2
    for name, make in PAGES.items():
        (DOCS / name).write_text(make(), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
