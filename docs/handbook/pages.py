"""The pages of the handbook as text: those of the repository, each technique, rule and instrument, and the rest."""

from __future__ import annotations

import inspect
import posixpath
import re
from functools import cache
from pathlib import Path

import gallery

import gesturesmith
from gesturesmith import instruments, rules, techniques
from gesturesmith.diagnostics import Report, Verdict, render_text
from gesturesmith.exercises.probes import reach
from gesturesmith.instruments.base import Instrument
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.rules.base import Rule
from gesturesmith.rules.shared.doc import PLAYERS, sections
from gesturesmith.source import Source
from gesturesmith.techniques.base import LAYERS, Technique
from handbook import instruments as instrument_pages
from handbook import rules as rule_pages
from handbook import schema, snippets, sources
from handbook import techniques as technique_pages
from handbook.difficulty import difficulty_page
from handbook.joining import joining_page
from handbook.markdown import table

ROOT = Path(__file__).parents[2]
TEXT = Path(__file__).parent / "text"
_CHARTS = ("map", "fingering", "quarter-tones", "ladders")

# The places of the repository's pages in the handbook.
_PLACES = {
    "docs/language.md": "language.md",
    "docs/library.md": "library.md",
    "docs/musicxml.md": "musicxml.md",
    "docs/difficulty.md": "difficulty.md",
    "docs/techniques.md": "techniques/index.md",
    "docs/joining.md": "techniques/joining.md",
    "docs/gallery": "techniques/index.md",
    "docs/gallery/README.md": "techniques/index.md",
    "docs/rules.md": "rules/index.md",
    "docs/instruments.md": "instruments/index.md",
    "DEVELOPERS.md": "developers.md",
    "SECURITY.md": "security.md",
    "CHANGELOG.md": "changes.md",
    "docs/handbook/text/adding.md": "adding.md",
    "docs/handbook/text/scores.md": "scores.md",
    "gesturesmith/schemas/report.json": "programs.md",
}
_LINK = re.compile(r"(?<=\]\()(?![a-z]+:|#)([^)#\s]+)(#[^)\s]*)?(?=\))")
_FENCE = re.compile(r"^(`{3,})([a-z]+)[ \t]*(\S*)[ \t]*$", re.MULTILINE)
_HIGHLIGHTED = {"make": "sh", "usage": "text"}


def relinked(text: str, place: str, page: str) -> str:
    """A page of the repository with its links adapted to the handbook; KeyError for a target outside it.

    place   the page's place in the repository
    page    its place in the handbook
    """

    def link(found: re.Match[str]) -> str:
        target = posixpath.normpath(posixpath.join(posixpath.dirname(place), found[1]))
        there = _PLACES[target.rstrip("/")]
        return posixpath.relpath(there, posixpath.dirname(page) or ".") + (found[2] or "")

    return _LINK.sub(link, text)


def highlighted(text: str) -> str:
    """Snippets in the form that Sphinx colours, with the names of their files."""

    def fence(found: re.Match[str]) -> str:
        ticks, kind, name = found.groups()
        if kind not in snippets.KINDS:
            return found[0]
        named = f"\n:caption: {name}" if name else ""
        return f"{ticks}{{code-block}} {_HIGHLIGHTED.get(kind, kind)}{named}\n"

    return _FENCE.sub(fence, text)


def _of_repository(place: str) -> str:
    text = (ROOT / place).read_text("utf-8")
    return relinked(text, place, _PLACES[place])


@cache
def _pictures() -> tuple[gallery.Picture, ...]:
    """The pictures of the gallery, those of one technique on the horn first."""
    return tuple(sorted(gallery.pictures(), key=lambda p: p.kind != "technique"))


def picture_of(technique: Technique) -> gallery.Picture | None:
    """The best picture of a technique: its own, or the first group that shows it."""
    for picture in _pictures():
        if any(technique.key in entry.techniques for entry in picture.shown):
            return picture
    return None


def _labels(picture: gallery.Picture) -> str:
    return "; ".join(entry.label for entry in picture.shown)


def _entry(picture: gallery.Picture, technique: Technique) -> gallery.Entry:
    """The gesture of a picture that shows a technique."""
    shown = [e for e in picture.shown if technique.key in e.techniques]
    return next((e for e in shown if e.label == "middle, long"), shown[-1])


def _written(picture: gallery.Picture, technique: Technique) -> str:
    """A gesture of a picture as it is written, in a file of its own."""
    entry = _entry(picture, technique)
    text = (gallery.FOLDER / picture.file).read_text("utf-8")
    head = "\n".join(line for line in text.splitlines() if re.match(r"(instrument|pitches|tempo):", line))
    block = re.search(rf"^gesture {re.escape(entry.name)}\b.*?(?=^\S|\Z)", text, re.MULTILINE | re.DOTALL)
    assert block is not None
    return f"{head}\n\n{block[0].strip()}\n"


def _shown_alone(picture: gallery.Picture, technique: Technique) -> tuple[str, ...]:
    return (
        f"![{technique.title['en']}, {picture.settings.title}: {_labels(picture)}](../pictures/{picture.name}.png)",
        f"So one of them is written:\n\n```gesture\n{_written(picture, technique)}```",
    )


def _engraved(picture: gallery.Picture, technique: Technique) -> tuple[str, ...]:
    """For a technique without its own picture: its gesture from a group, engraved while the page is made."""
    key = technique.key
    made = f"out/{key}/{_entry(picture, technique).name}.png"
    return (
        f"![{technique.title['en']}, {picture.settings.title}](made:{made})",
        f"It is written and engraved so:\n\n```gesture {key}.gesture\n{_written(picture, technique)}```",
        f"```console\n$ gesturesmith engrave {key}.gesture --as png\n```",
    )


def _shown_on() -> tuple[Instrument, ...]:
    """One instrument of each kind: those with pictures in the gallery."""
    names = {path.stem for path in gallery.FOLDER.glob("*.gesture")} & {*instruments.names()}
    return tuple(instruments.get(name) for name in sorted(names))


def _stretches(technique: Technique, instrument: Instrument) -> tuple[str, ...]:
    """The stretches where a technique is playable, with care, or not as written: first and last written notes."""
    found: dict[Verdict, list[str]] = {verdict: [] for verdict in Verdict}
    first = last = None
    for one in (*reach(technique, instrument), None):
        if first is not None and last is not None and (one is None or one.verdict is not first.verdict):
            same = first.note == last.note
            found[first.verdict].append(first.note.name if same else f"{first.note.name} to {last.note.name}")
            first = None
        if one is not None:
            first, last = first or one, one
    return tuple(", ".join(found[v]) for v in (Verdict.PLAYABLE, Verdict.WITH_CARE, Verdict.NOT_AS_WRITTEN))


def technique_page(technique: Technique, *, registers: bool) -> str:
    text = technique_pages.technique_section(technique, heading="#", named=False)

    def linked(line: str) -> str:
        if not line.startswith(("- In its place", "- Not with")):
            return line
        return re.sub(r"`([a-z-]+)`", r"[`\1`](\1.md)", line)

    text = "\n".join(linked(line) for line in text.split("\n"))
    head, first, rest = text.split("\n\n", 2)
    picture = picture_of(technique)
    assert picture is not None, f"the gallery does not show {technique.key}"
    parts = [
        head,
        f"Written `technique: {technique.key}`.",
        first,
        *(_shown_alone(picture, technique) if picture.kind == "technique" else _engraved(picture, technique)),
    ]
    if registers and technique.pitched != "none":
        rows = [(f"[{i.name}](../instruments/{i.key}.md)", *_stretches(technique, i)) for i in _shown_on()]
        parts += [
            "## Registers",
            "Written notes on which the easiest gesture with it begins. What is not here cannot play it.",
            table(("instrument", "playable", "with care", "not as written"), [r for r in rows if r[1] or r[2]]),
        ]
    parts += ["## How it is played, seen and judged", rest]
    return "\n\n".join(parts) + "\n"


def _techniques_index() -> str:
    found = [techniques.get(name) for name in techniques.names()]
    parts = ["# Techniques", technique_pages.INTRODUCTION.replace("instruments.md", "../instruments/index.md")]
    for layer in LAYERS:
        mine = [t for t in found if t.layer == layer]
        rows = [(f"[{t.title['en']}]({t.key}.md)", f"`{t.key}`", t.texts["en"]) for t in mine]
        parts += [f"## {technique_pages.LAYER_TITLES[layer]}", table(("technique", "written", "played"), rows)]
    parts.append(technique_pages.LIMIT_NAMES)
    parts.append(
        _toctree(["joining", *(t.key for layer in LAYERS for t in found if t.layer == layer)], hidden=True)
    )
    return "\n\n".join(parts) + "\n"


def example_said(text: str) -> str:
    """The output of `gesturesmith check example.gesture` for a file."""
    options = Options(folder=PLAYERS, only_check=True)
    report = compile_text(Source("example.gesture", text + "\n"), options).report
    return render_text(Report(files=(report,)), colour=False).strip("\n")


def _example(text: str) -> str:
    named = [path for path in sorted(PLAYERS.glob("*.toml")) if path.name in text]
    shown = "".join(f"```toml {path.name}\n{path.read_text('utf-8')}```\n\n" for path in named)
    return (
        f"{shown}```gesture example.gesture\n{text}\n```\n\n"
        f"```console\n$ gesturesmith check example.gesture\n{example_said(text)}\n```"
    )


def _rule_section(rule: Rule) -> str:
    said = sections(rule.doc)
    return rule_pages.rule_section(
        rule,
        heading="##",
        target=f"({rule.name})=\n",
        examples={name: _example(said[name]) for name in ("Fires", "Passes")},
    )


def _slug(title: str) -> str:
    return re.sub(r"[^a-z]+", "-", title.lower()).strip("-")


def _rule_pages() -> dict[str, str]:
    made = {}
    rows = []
    slugs = []
    for digit, title in rule_pages.RULE_GROUPS.items():
        group = [r for r in rules.all_rules() if r.code[2] == digit]
        if not group:
            continue
        slugs.append(_slug(title))
        page = f"{slugs[-1]}.md"
        parts = [f"# {title}", f"Rules GS{digit}01 and on.", *(_rule_section(r) for r in group)]
        made[f"rules/{page}"] = "\n\n".join(parts) + "\n"
        rows += [(f"[`{r.name}`]({page}#{r.name})", r.code, r.doc.strip().partition("\n")[0]) for r in group]
    parts = ["# Rules", rule_pages.INTRODUCTION, table(("rule", "code", "when"), rows)]
    if rules.RETIRED:
        parts += ["## No longer used", table(("code", "instead"), sorted(rules.RETIRED.items()))]
    made["rules/index.md"] = "\n\n".join((*parts, _toctree(slugs, hidden=True))) + "\n"
    return made


def charts_of(instrument: Instrument) -> tuple[str, ...]:
    """The charts of an instrument, as `gesturesmith chart` names them."""
    return tuple(f"{instrument.key}-{kind}" for kind in _CHARTS)


def _instrument_page(instrument: Instrument, *, charts: bool) -> str:
    text = instrument_pages.instrument_section(instrument, heading="#", named=False)
    head, rest = text.split("\n\n", 1)
    head = f"# {head[2].upper()}{head[3:]}"
    first, rest = rest.split("\n\n", 1)
    parts = [head, f"Written `instrument: {instrument.key}`. {first}"]
    if charts:
        parts.append("## Charts")
        for name in charts_of(instrument):
            kind = name.removeprefix(f"{instrument.key}-").replace("-", " ")
            parts.append(f"![{instrument.name}, {kind}](../charts/{name}.png)")
        parts.append(f"To print them:\n\n```console\n$ gesturesmith chart {instrument.key} --as pdf\n```")
    for picture in _pictures():
        if picture.kind == "gestures" and picture.name == instrument.key:
            parts.append("## Techniques on it")
            parts.append(f"![{instrument.name}: {_labels(picture)}](../pictures/{picture.name}.png)")
    parts += ["## Numbers and their evidence", rest]
    if instrument_pages.own_limits(instrument):
        parts.append("Every other limit is [as instruments share them](index.md#limits-that-instruments-share).")
    return "\n\n".join(parts) + "\n"


def _instruments_index() -> str:
    found = instrument_pages.found()
    rows = [(f"[{i.name}]({i.key}.md)", f"`{i.key}`", instrument_pages.transposition_text(i)) for i in found]
    parts = (
        "# Instruments",
        table(("instrument", "written", "sounds"), rows),
        instrument_pages.INTRODUCTION,
        instrument_pages.shared_section(),
        _toctree([i.key for i in found], hidden=True),
    )
    return "\n\n".join(parts) + "\n"


def _toctree(names: list[str], *, hidden: bool = False) -> str:
    options = ":hidden:\n" if hidden else ""
    return f"```{{toctree}}\n:maxdepth: 1\n{options}\n" + "\n".join(names) + "\n```"


def _commands() -> str:
    from gesturesmith.cli.group import cli

    names = cli.list_commands(None)  # type: ignore[arg-type]
    parts = ["# Commands", "```console\n$ gesturesmith --help\n```"]
    for name in names:
        parts.append(f"## gesturesmith {name}\n\n```console\n$ gesturesmith {name} --help\n```")
    return "\n\n".join(parts) + "\n"


def _library_reference() -> str:
    """Every public name, functions first, from its docstring."""
    names = [name for name in gesturesmith.__all__ if name != "__version__"]
    functions = [name for name in names if inspect.isfunction(getattr(gesturesmith, name))]
    parts = ["## Functions"]
    parts += [f"```{{eval-rst}}\n.. autofunction:: gesturesmith.{name}\n```" for name in functions]
    parts.append("## Values")
    parts += [
        f"```{{eval-rst}}\n.. autoclass:: gesturesmith.{name}\n   :members:\n```"
        for name in names
        if name not in functions
    ]
    return "\n\n".join(parts)


def pages(*, quick: bool = False) -> dict[str, str]:
    """Every page by its place, with snippets in the form they have in the repository.

    quick   leave out the slow parts: the charts of instruments and the registers of techniques
    """
    made = {_PLACES[place]: _of_repository(place) for place in _BY_HAND}
    made |= {path.name: path.read_text("utf-8") for path in sorted(TEXT.glob("*.md"))}
    made["difficulty.md"] = relinked(difficulty_page(), "docs/difficulty.md", "difficulty.md")
    made["library.md"] += f"\n{_library_reference()}\n"
    made["commands.md"] = _commands()
    schemas = "\n\n".join(schema.schema_section(name) for name in schema.names())
    made["programs.md"] += f"\n{schemas}\n"
    made["sources.md"] = sources.sources_page()
    made["techniques/index.md"] = _techniques_index()
    made["techniques/joining.md"] = joining_page()
    for name in techniques.names():
        made[f"techniques/{name}.md"] = technique_page(techniques.get(name), registers=not quick)
    made |= _rule_pages()
    made["instruments/index.md"] = _instruments_index()
    for instrument in instrument_pages.found():
        made[f"instruments/{instrument.key}.md"] = _instrument_page(instrument, charts=not quick)
    return made


_BY_HAND = (
    "docs/language.md",
    "docs/library.md",
    "docs/musicxml.md",
    "DEVELOPERS.md",
    "SECURITY.md",
    "CHANGELOG.md",
)
