"""The sources: each published one and each from practice once, with the values based on it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from gesturesmith import instruments, rules, techniques
from gesturesmith.checker import check_text
from gesturesmith.diagnostics import Severity
from gesturesmith.difficulty.quantities import QUANTITIES
from gesturesmith.evidence import Kind, Limit, Sourced
from gesturesmith.exercises import compass, levels
from gesturesmith.explain import difficulty as explain_difficulty
from gesturesmith.explain.rules import rule_evidence
from gesturesmith.source import Source
from handbook.markdown import table

DOCS = Path(__file__).parents[1]


@dataclass(frozen=True)
class Named:
    """A source, and the pattern of its name in values."""

    what: str
    marks: tuple[str, ...]
    again: str  # what a second reading found, by someone who did not write the values


NAMED = (
    Named(
        "abjad 3.31, a library for notation: ranges of instruments and voices",
        ("abjad 3.31",),
        "every range read in the library: says so; tests compare them",
    ),
    Named(
        "music21 10.5.1, a library for musicology: ranges of instruments",
        ("music21 10.5.1",),
        "lowest notes read in the library: says so; it has no highest ones",
    ),
    Named(
        "SMuFL 1.4, Standard Music Font Layout (W3C)",
        ("SMuFL",),
        "every glyph found in its list of names, by name and description",
    ),
    Named("MusicXML 4.0 (W3C)", ("MusicXML 4.0",), "elements `glissando` and `slide`: says so"),
    Named(
        "OEIS A309909: slide positions of the trombone, citing Kennan, The Technique of Orchestration (1952), "
        "pp. 136-141",
        ("OEIS A309909",),
        "says so, of all 49 notes; Kennan's book was not seen",
    ),
    Named(
        "Journal of the Acoustical Society of America 155 (3 Suppl.) A109 (2024), doi 10.1121/10.0026978: hand "
        "stopping on the horn",
        ("10.1121/10.0026978", "JASA 155"),
        "abstract: down a semitone on the horn in F; the pitch falls smoothly while the hand closes",
    ),
    Named(
        "Chalmers publication 141752 (JASA 129, 2011): just audible tonality",
        ("Chalmers publ. 141752",),
        "abstract: 20 to 23 ms at the lowest band, of 150 to 7000 Hz",
    ),
    Named(
        "Thompson: A study of French horn harmonics, Institute of Acoustics (2010), abstract",
        ("A study of French horn harmonics",),
        "abstract: the pedal note is no resonance of the instrument",
    ),
    Named(
        "hal-04281802, One pedal note can hide another: pedal notes of brass",
        ("hal-04281802",),
        "abstract: a few semitones from any resonance, and rather loud than soft",
    ),
    Named(
        "A. Jacobs, as quoted at scribd.com (606637626) and ojtrumpet.net: lungs and air of brass players",
        ("A. Jacobs",),
        "pages read; the measurements themselves were not",
    ),
    Named(
        "Music Perception 20/4 (2003): how two trumpeters intoned",
        ("Music Perception 20/4",),
        "abstract: mean deviation 4.9 cents, standard deviation 6.5",
    ),
    Named(
        "Fletcher and Tarnopolsky: Blowing pressure, power, and spectrum in trumpet playing, JASA 105 (1999)",
        ("Fletcher and Tarnopolsky",),
        "abstract: a threshold about proportional to frequency, 15 dB for each doubling of pressure",
    ),
    Named(
        "Barbenel, Kenny and Davies: Mouthpiece forces produced while playing the trumpet, J. Biomech. 21 (1988)",
        ("Barbenel, Kenny and Davies",),
        "abstract: the force grows with loudness and pitch, of 60 players",
    ),
    Named(
        "Berlioz: Traité d'instrumentation et d'orchestration (1844), as at fr.wikisource.org",
        ("Berlioz, Traité",),
        "compass of the tenor trombone: says so, of the pedal notes too",
    ),
    Named(
        "Grove (ed.): A Dictionary of Music and Musicians (1879-1889), Horn, as at en.wikisource.org",
        ("Grove, A Dictionary",),
        "says so, and that many players cannot produce the note",
    ),
    Named(
        "kturnertuba.com: the range of orchestral parts for tuba",
        ("kturnertuba.com",),
        "says so; the part was written for ophicleide",
    ),
    Named(
        "trumpetmaster.com: players on lip bends and on the speed of the tongue",
        ("trumpetmaster.com",),
        "threads read: opinions of single players",
    ),
    Named("johnfreemantrumpet.com: endurance", ("johnfreemantrumpet.com",), "says so"),
    Named(
        "Neuroscience Letters 2009, doi 10.1016/j.neulet.2009.04.055: how fast fingers tap",
        ("Neuroscience Letters",),
        "abstract: 5 to 7 Hz, the fastest drummer 10 Hz; of the hand, not of single fingers",
    ),
    Named(
        "fact-index.com: written ranges of the Wagner tubas",
        ("fact-index.com",),
        "says so, of both; wagner-tuba.com has sounding D5 as where notes become uncertain",
    ),
    Named("Wikibooks, Trombone: slide positions", ("Wikibooks",), "says so: 1 and 2 with the trigger for 6 and 7"),
    Named("bandworld.org, Taming the Tuba: the fourth valve", ("bandworld.org",), "says so"),
    Named("playingbrass.com: the trigger of the trombone", ("playingbrass.com",), "says so: six positions"),
    Named("vsl.co.at: contrabass trombone", ("vsl.co.at",), "says so: valves in Eb and Bb, both in Ab"),
    Named(
        "spiegato.com: ranges of trombones",
        ("spiegato.com",),
        "says so: F5 for experienced players, F1 with two triggers, G on the alto",
    ),
    Named(
        "J. Wolfe, UNSW: pages on brass acoustics",
        ("J. Wolfe, UNSW",),
        "says so: usually 0.1 to 1 L/s, a bit higher for a tuba at ff",
    ),
    Named(
        "Kruger, McLean and Kruger: the pressure that a pitch needs to start",
        ("Kruger, McLean and Kruger",),
        "says so; no level is given",
    ),
    Named(
        "Wikipedia: Pitch of brass instruments; Contrabass trombone; Trombone; horn",
        ("Wikipedia",),
        "says so: written F#3 to E6, whole and half tubes; C1 to D4, F4 and F#0 possible; D5 possible; C4 closed "
        "comes to A-flat 3",
    ),
    Named(
        "D. Hill, Extended Techniques for the Horn, list of contents",
        ("D. Hill",),
        "its list of contents has the names",
    ),
    Named(
        "nemusicpub.com/grading: ranges, keys, note values and tempi of band music by grade",
        ("nemusicpub.com",),
        "grades 1/2 to 2 read; letters without octaves",
    ),
    Named(
        "reykjavik.is, learning objectives of city music schools: horn, trumpet, trombone, tuba",
        ("reykjavik.is",),
        "levels 1 to 3 read",
    ),
    Named("nzmeb.org: syllabus for the trumpet, preliminary grade", ("nzmeb.org",), "says so"),
    Named(
        "J. Ericson, ASU: stopped and muted horn",
        ("Ericson",),
        "says so, as at baysidehorns.itgo.com; theinstrumentalist.com (2008) has the same of the B-flat side",
    ),
    Named("M. Clayville, blog of 2011-10-24", ("M. Clayville",), "says so, with Bartók's B to F as its example"),
    Named("S. Wright, endurance sheet", ("S. Wright",), "says so, of practising"),
    Named(
        "hsutrumpets.com, which also quotes Pfund",
        ("hsutrumpets.com",),
        "endurance: says so; nothing found there on bends, which are from memory now",
    ),
    Named(
        "A. Hynds, composerstubaguide.blog",
        ("composerstubaguide.blog",),
        "flutter-tonguing: says so, of growl too; a dissertation of 2019 has the same",
    ),
    Named(
        "contemporarytuba.com: techniques of the tuba",
        ("contemporarytuba.com",),
        "tonguing, gaps and split tones: says so; it adds that a composer need not specify the kind of tonguing",
    ),
    Named(
        "thecontemporaryhorn.com: techniques of the horn",
        ("thecontemporaryhorn.com",),
        "Tonguing, Demi-pistons, Microtonality and the table of fingerings: says so; trombonechat.com has "
        "sixteenths at 120 as the end of single tonguing, for more than about eight notes",
    ),
    Named("thebrasswhisperer.com: tuning of the horn's valves", ("thebrasswhisperer.com",), "says so"),
    Named(
        "bwhisperer.com, Horn Harmonic Series: partials that one expert player shows on the horn",
        ("bwhisperer.com",),
        "1 to 19 on the F horn: says so; the easiest are 3 to 12 on the F horn and 2 to 9 on the B-flat horn",
    ),
    Named("banddirectorstalkshop.com: stopped horn", ("banddirectorstalkshop.com",), "says so"),
    Named(
        "bnelsonmusic.wordpress.com: writing for horn",
        ("bnelsonmusic.wordpress.com",),
        "five seconds before and after a cup mute: says so, of that mute only",
    ),
    Named("hornmatters.com, 2018/07", ("hornmatters.com",), "says so"),
    Named(
        "naturalhorn.com: hand positions",
        ("naturalhorn.com",),
        "says so, of B-flat and the F-sharp on the top line; below G3 an F-sharp is bent, an F is hard",
    ),
    Named(
        "whistleandflute.net: ranges and pedal notes of the trombone",
        ("whistleandflute.net",),
        "says so: E2 to Bb4 and upward, pedal notes Bb1 to E1, not uncommon",
    ),
    Named(
        "orchestrationonline.com: strength of the registers",
        ("orchestrationonline.com",),
        "not found again; the value was only ours already",
    ),
    Named(
        "Common practice, without a particular source",
        ("common practice", "the first partial"),
        "no source to read: what every player says",
    ),
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
    for level in levels.numbered():
        for sourced in (level.tempi, level.pace, level.shares, level.widest, level.dynamics, level.tongue):
            yield sourced, f"lessons of level {level.number}"
    for name in compass.names():
        for sourced in (*compass.get(name).ranges, *compass.get(name).keys):
            yield sourced, f"lessons of `{compass.get(name).instruments[0]}`"
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


def heaviest() -> Iterator[tuple[str, str, str]]:
    """Our own values that findings on the shipped files rest on, by their number."""
    counted: Counter[tuple[str, str]] = Counter()
    for path in sorted(DOCS.rglob("*.gesture")):
        source = Source(path.name, path.read_text(encoding="utf-8"))
        report = check_text(source, folder=path.parent, suggestions=False).report
        for said in (*report.gestures, *report.passages):
            for finding in said.findings:
                if finding.evidence.kind in (Kind.HOUSE, Kind.MEMORY) and finding.severity is not Severity.ADVICE:
                    counted[(finding.rule, f"{finding.evidence.kind.value}: {finding.evidence.source}")] += 1
    for (rule, evidence), number in sorted(counted.items(), key=lambda row: (-row[1], row[0])):
        yield str(number), f"`{rule}`", evidence


def sources_page() -> str:
    """Each source with the values based on it, then values without a source."""
    resting: dict[str, dict[str, None]] = {one.what: {} for one in NAMED}
    kinds: dict[str, set[str]] = {one.what: set() for one in NAMED}
    for sourced, what in rests():
        for one in source_of(sourced.source):
            resting[one.what][what] = None
            kinds[one.what].add(sourced.kind.value)
    again = {one.what: one.again for one in NAMED}
    rows = [
        (what, ", ".join(sorted(kinds[what])), ", ".join(sorted(found)), again[what])
        for what, found in resting.items()
    ]
    memory = sorted({s.source for s, _ in rests() if s.kind is Kind.MEMORY})
    parts = (
        "# Sources",
        "What the checker relies on, source by source. A value from a printed work, a standard or a reference "
        "library is *published*; one from a player's or teacher's page is *practice*. Where a source is only "
        "quoted, or the number read from it is ours, the value says *memory* or *house*, and never refuses.",
        table(("source", "used as", "what rests on it", "second reading"), rows),
        "## Our own, heaviest first",
        "House and memory values by the number of findings that rest on them in the gallery and the demos: what is "
        "best tried out by players first. For these a search found nothing to rest a number on: half-valve and "
        "split-attack rates, the width of slides with the hand out, the border of low glissandi, how long growl, "
        "flutter and shake last, the speed of runs. The slide's speed has been measured (Lammers and others, with "
        "42 players; a thesis of KTH, 2001), but the abstracts give no number. Effort follows two measurements of "
        "trumpeters in its direction, not in its numbers.",
        table(("findings", "value", "rests on"), heaviest()),
        "## From memory",
        "Not looked up, and waiting for a printed source:",
        "\n".join(f"- {text}" for text in memory),
        "## What rules rest on",
        "The evidence of what each rule finds on its own example.",
        table(("rule", "evidence"), [(f"`{r.name}`", "; ".join(rule_evidence(r))) for r in rules.all_rules()]),
    )
    return "\n\n".join(parts) + "\n"
