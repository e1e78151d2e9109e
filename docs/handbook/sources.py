"""The sources: each published one and each from practice once, with the values based on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Any

from gesturesmith import instruments, rules, techniques
from gesturesmith.difficulty.quantities import QUANTITIES
from gesturesmith.evidence import Kind, Limit, Sourced
from gesturesmith.explain import difficulty as explain_difficulty
from gesturesmith.explain.rules import rule_evidence
from handbook.markdown import table


@dataclass(frozen=True)
class Named:
    """A source, and the pattern of its name in values."""

    what: str
    marks: tuple[str, ...]


NAMED = (
    Named("abjad 3.31, a library for notation: ranges of instruments and voices", ("abjad 3.31",)),
    Named("music21 10.5.1, a library for musicology: ranges of instruments", ("music21 10.5.1",)),
    Named("SMuFL 1.4, Standard Music Font Layout (W3C)", ("SMuFL",)),
    Named("MusicXML 4.0 (W3C)", ("MusicXML 4.0",)),
    Named(
        "OEIS A309909: slide positions of the trombone, citing Kennan, The Technique of Orchestration (1952), "
        "pp. 136-141",
        ("OEIS A309909",),
    ),
    Named(
        "Journal of the Acoustical Society of America 155 (3 Suppl.) A109 (2024), doi 10.1121/10.0026978: hand "
        "stopping on the horn",
        ("10.1121/10.0026978", "JASA 155"),
    ),
    Named("Chalmers publication 141752: just audible tonality", ("Chalmers publ. 141752",)),
    Named("Edinburgh theses on brass instruments: Logie (2012), Bromage (2007)", ("Edinburgh theses",)),
    Named(
        "Thompson: A study of French horn harmonics, Institute of Acoustics (2010), abstract",
        ("A study of French horn harmonics",),
    ),
    Named("fact-index.com: Wagner tuba", ("fact-index.com",)),
    Named("Wikibooks, Trombone: slide positions", ("Wikibooks",)),
    Named("galvanizedjazz.com: fingerings of tubas with four and more valves", ("galvanizedjazz.com",)),
    Named("playingbrass.com: the trigger of the trombone", ("playingbrass.com",)),
    Named("vsl.co.at: contrabass trombone", ("vsl.co.at",)),
    Named("spiegato.com: ranges of brass instruments", ("spiegato.com",)),
    Named("J. Wolfe, UNSW: pages on brass acoustics", ("J. Wolfe, UNSW",)),
    Named("Kruger, McLean and Kruger: the pressure that a pitch needs to start", ("Kruger, McLean and Kruger",)),
    Named("Wikipedia: Pitch of brass instruments; horn", ("Wikipedia",)),
    Named("D. Hill, Extended Techniques for the Horn, list of contents", ("D. Hill",)),
    Named("J. Ericson, ASU: stopped and muted horn", ("Ericson",)),
    Named("M. Clayville, blog of 2011-10-24", ("M. Clayville",)),
    Named("S. Wright, endurance sheet", ("S. Wright",)),
    Named("Buckner, hsutrumpets.com, which also quotes Pfund", ("hsutrumpets.com",)),
    Named("A. Hynds, composerstubaguide.blog", ("composerstubaguide.blog",)),
    Named("contemporarytuba.com: techniques of the tuba", ("contemporarytuba.com",)),
    Named("thecontemporaryhorn.com: techniques of the horn", ("thecontemporaryhorn.com",)),
    Named("thebrasswhisperer.com: tuning of the horn's valves", ("thebrasswhisperer.com",)),
    Named(
        "bwhisperer.com, Blog 19 and Horn Harmonic Series: partials that one expert player shows on the horn",
        ("bwhisperer.com",),
    ),
    Named("banddirectorstalkshop.com: stopped horn", ("banddirectorstalkshop.com",)),
    Named("bnelsonmusic.wordpress.com: writing for horn", ("bnelsonmusic.wordpress.com",)),
    Named("hornmatters.com, 2018/07", ("hornmatters.com",)),
    Named("naturalhorn.com: hand positions", ("naturalhorn.com",)),
    Named("whistleandflute.net: ranges and pedal notes of the trombone", ("whistleandflute.net",)),
    Named("spiegato.com: how high trombones go", ("spiegato.com",)),
    Named("fact-index.com: written ranges of the Wagner tubas", ("fact-index.com",)),
    Named("orchestrationonline.com: strength of the registers", ("orchestrationonline.com",)),
    Named("Common practice, without a particular source", ("common practice", "the first partial")),
)


def _limits(owner: str, limits: Any) -> Iterator[tuple[Sourced[Any], str]]:
    for name, limit in limits.items():
        assert isinstance(limit, Limit)
        for sourced in (limit.narrow, limit.wide):
            if sourced is not None:
                yield sourced, f"{owner}`{name}`"


def rests() -> Iterator[tuple[Sourced[Any], str]]:
    """Every value with evidence in instruments, techniques and difficulty, with its description."""
    for key in instruments.names():
        one = instruments.get(key)
        yield from _limits("", one.limits)
        for what, sourced in (
            ("range", one.usual_range),
            ("range", one.widest_range),
            ("fingerings", one.chart_evidence),
            ("third valve slide", one.third_slide),
            *(("registers", r.evidence) for r in one.registers),
        ):
            yield sourced, f"{what} of `{key}`"
        for side in one.sides:
            yield side.partials.narrow, f"partials of `{key}`"
            if side.partials.wide is not None:
                yield side.partials.wide, f"partials of `{key}`"
            if side.stopped_cents is not None:
                yield side.stopped_cents, f"stopped notes of `{key}`"
    for key in techniques.names():
        technique = techniques.get(key)
        yield from ((sourced, f"`{key}`") for sourced in technique.sources)
        yield from _limits(f"`{key}`: ", technique.limits)
        asked = (("effort", technique.effort), ("air", technique.flow), ("difficulty", technique.skill))
        yield from ((value, f"`{key}`: {what}") for what, value in asked if value is not None)
        heard = (getattr(technique.sound, field.name) for field in fields(technique.sound))
        yield from ((value, f"`{key}`: how it sounds") for value in heard if isinstance(value, Sourced))
    for quantity in QUANTITIES:
        yield from ((s, f"difficulty: `{quantity.name}`") for s in explain_difficulty.evidence(quantity))


def source_of(text: str) -> tuple[Named, ...]:
    """The sources named by a value."""
    return tuple(one for one in NAMED if any(mark.casefold() in text.casefold() for mark in one.marks))


def sources_page() -> str:
    """Each source with the values based on it, then values without a source."""
    resting: dict[str, dict[str, None]] = {one.what: {} for one in NAMED}
    kinds: dict[str, set[str]] = {one.what: set() for one in NAMED}
    for sourced, what in rests():
        for one in source_of(sourced.source):
            resting[one.what][what] = None
            kinds[one.what].add(sourced.kind.value)
    rows = [(what, ", ".join(sorted(kinds[what])), ", ".join(sorted(found))) for what, found in resting.items()]
    memory = sorted({s.source for s, _ in rests() if s.kind is Kind.MEMORY})
    parts = (
        "# Sources",
        "What the checker relies on, source by source. A value from a printed work, a standard or a reference "
        "library is *published*; one from a player's or teacher's page is *practice*. Where a source is only "
        "quoted, or the number read from it is ours, the value says *memory* or *house*, and never refuses.",
        table(("source", "used as", "what rests on it"), rows),
        "## From memory",
        "Not looked up, and waiting for a printed source:",
        "\n".join(f"- {text}" for text in memory),
        "## What rules rest on",
        "The evidence of what each rule finds on its own example.",
        table(("rule", "evidence"), [(f"`{r.name}`", "; ".join(rule_evidence(r))) for r in rules.all_rules()]),
    )
    return "\n\n".join(parts) + "\n"
