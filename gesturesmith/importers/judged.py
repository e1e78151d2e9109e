"""Judges the parts of a score by the rules for gestures and passages. Findings name part, bar and beat."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from gesturesmith import instruments
from gesturesmith.diagnostics import (
    Finding,
    FoundPlace,
    ReadError,
    ScoreFinding,
    ScorePartReport,
    ScoreReport,
    Severity,
)
from gesturesmith.importers.bass_clef import is_old
from gesturesmith.importers.fingered import unread
from gesturesmith.importers.notated import NotatedScore
from gesturesmith.importers.order import MAX_PLAYED
from gesturesmith.importers.phrases import Phrase, PlayerLine, ScorePlace, lines
from gesturesmith.importers.times import Paces, ScoreTimes, seconds_in, timetable
from gesturesmith.judge.gesture import Judged, judge, judge_passage, verdict_of
from gesturesmith.model.builder import NewFingering, NewGesture, NewLevel, NewPoint, make
from gesturesmith.model.piece import Passage, PassageItem
from gesturesmith.model.strokes import MEASURED, repeat_beats
from gesturesmith.model.tempo import steady
from gesturesmith.rules.base import Case, PassageCase
from gesturesmith.source import Span
from gesturesmith.units import UNISON, Spelling, spell
from gesturesmith.values import frozen

# What they say is about our pages and files, not about what is played.
_OF_OUR_PAGES = frozenset({"no-note-value", "text-too-long", "sign-without-footnote", "too-many-points-to-read"})
_CONTOUR = 2  # the line of spans in gestures made by a program
_OF_TIME = ("s", "ms", "L")  # units of what depends on the tempo, besides everything a second
_ENDLESS = "accel. or rit. without a tempo to reach"
_OTHER_FINGERING = "fingering that the instrument does not have"
_ASSUMED = " (at the tempo assumed)"
# What a stretch of bars lacks, where the finding is about one.
_LACKS = {"breath-too-short": "no place to breathe"}


@frozen
class _Located:
    """A finding with its places in the score."""

    finding: Finding
    place: ScorePlace
    note: str
    until: ScorePlace | None = None


def judged(score: NotatedScore, file: str, tempo: Fraction | None = None) -> ScoreReport:
    """The report on a score.

    file    its name in messages
    tempo   quarters per minute where the score has none; None for the usual assumption, which is reported
    """
    return judged_with_lines(score, file, tempo)[0]


def judged_with_lines(
    score: NotatedScore, file: str, tempo: Fraction | None = None
) -> tuple[ScoreReport, tuple[PassageCase | None, ...]]:
    """The same, and what each player of the report plays, as one passage; None where nothing can be played."""
    times = timetable(score, tempo)
    errors = list(score.errors)
    if not times.complete:
        errors.append(_error(f"with its repeats it has more than {MAX_PLAYED:,} bars; it is checked up to there"))
    known = _Known(times)
    rows = [_part(score, line, known, errors) for part in score.parts for line in lines(score, part, times)]
    more = [(_ENDLESS, times.endless), (_OTHER_FINGERING, unread(score))]
    report = ScoreReport(
        file=file,
        readable=not errors,
        title=score.title,
        errors=tuple(errors),
        bars=len(score.bars),
        tempo=times.tempos[0][2] if times.assumed and rows else None,
        parts=tuple(part for part, _ in rows),
        others=score.others,
        left_out=(*score.left_out, *((what, count) for what, count in more if count)),
    )
    return report, tuple(passage for _, passage in rows)


def _error(message: str) -> ReadError:
    return ReadError(code="GS199", rule="unreadable-in-score", span=Span(1, 1, 2), message=message)


class _Known:
    """The phrases of a score that have been judged: what two players have, or one plays again, is judged once."""

    def __init__(self, times: ScoreTimes) -> None:
        self.times = times
        self._rows: defaultdict[tuple[object, ...], list[tuple[NewGesture, Judged | str]]] = defaultdict(list)

    def judged(self, phrase: Phrase) -> Judged | str:
        """The phrase as it is judged, or why its notes make no gesture."""
        plain = self._one(phrase, replace(phrase.gesture, name="", fingering=()))
        if isinstance(plain, str) or not phrase.gesture.fingering:
            return plain
        given = self._one(phrase, replace(phrase.gesture, name=""))
        if isinstance(given, str):
            return given
        # Whoever wrote them may count valves or positions otherwise: what they add is a caution at most.
        rules = {finding.rule for finding in plain.findings}
        more = [
            replace(f, severity=Severity.CAUTION) if f.severity is Severity.REFUSED else f
            for f in given.findings
            if f.rule not in rules
        ]
        return replace(plain, findings=(*plain.findings, *more))

    def _one(self, phrase: Phrase, gesture: NewGesture) -> Judged | str:
        paces = self.times.paces(phrase.at, phrase.lasts)
        # Values are compared, which is soon over where they differ, and hashed only where that is cheap.
        row = self._rows[len(gesture.points), gesture.lasts, gesture.techniques, paces]
        for other, found in row:
            if other == gesture:
                return found
        made, wrong = make(_in_seconds(gesture, paces))
        found = judge(made) if made is not None else wrong[0].message
        row.append((gesture, found))
        return found


def _part(
    score: NotatedScore, line: PlayerLine, known: _Known, errors: list[ReadError]
) -> tuple[ScorePartReport, PassageCase | None]:
    located, passage = _located(score, line, known, errors)
    found = tuple(_grouped(score, located, known.times))
    instrument = instruments.get(line.part.key)
    places = {(p.bar, p.at) for phrase in line.phrases for p in phrase.places}
    report = ScorePartReport(
        part=line.part.name,
        player=line.player + 1 if line.players > 1 else 0,
        instrument=instrument.key,
        instrument_name=instrument.name,
        why=line.part.why,
        written=_written(score, line),
        notes=len(places),
        verdict=verdict_of(f for one in found for f in [_severe(one)]),
        findings=found,
    )
    return report, passage


def _severe(found: ScoreFinding) -> Finding:
    return Finding(span=Span(1, 1, 2), text="", evidence=found.evidence, severity=found.severity)


def _written(score: NotatedScore, line: PlayerLine) -> str:
    """How a part is written, if not as its instrument: "in E-flat", "at sounding pitch", in the old bass clef."""
    old = not score.ours and any(is_old(part) for part in score.parts if part.id == line.part.id)
    return ", ".join(filter(None, (_key(line), "its bass clef an octave low, as in old parts" if old else "")))


def _key(line: PlayerLine) -> str:
    own = instruments.get(line.part.key).sounding.cents
    found = next((b.sounding for b in line.part.bars if b.notes), UNISON)
    if found.cents == own:
        return ""
    if not found.cents:
        return "at sounding pitch"
    return f"in {_spoken(spell(6000 + found.cents))}"


def _spoken(spelling: Spelling) -> str:
    return spelling.letter + {1: "-sharp", -1: "-flat"}.get(int(spelling.alter), "")


def _located(
    score: NotatedScore, line: PlayerLine, known: _Known, errors: list[ReadError]
) -> tuple[list[_Located], PassageCase | None]:
    """Every finding on what a player plays, each place once however often it is repeated, and that as a passage.
    Notes that make no gesture go to `errors`."""
    found: list[_Located] = []
    items: list[PassageItem] = []
    cases: list[Case | None] = []
    now = Fraction(0)
    seen: set[tuple[object, ...]] = set()
    wrong: set[tuple[ScorePlace, ...]] = set()

    def once(finding: Finding, phrase: Phrase) -> None:
        one = _placed(finding, phrase)
        key = (finding.rule, finding.text, one.place.bar, one.place.at)
        if key not in seen:
            seen.add(key)
            found.append(one)

    phrases = tuple(_struck_out(phrase) for phrase in line.phrases)
    for number, phrase in enumerate(phrases):
        one = known.judged(phrase)
        if isinstance(one, str):
            if phrase.places not in wrong:
                wrong.add(phrase.places)
                place = f"bar {score.bars[phrase.places[0].bar].number} of {line.part.name}"
                errors.append(_error(f"{place}: these notes could not be checked: {one}"))
            continue
        for finding in one.findings:
            once(finding, phrase)
        starts, ends = known.times.seconds(phrase.at), known.times.seconds(phrase.at + phrase.lasts)
        if starts > now:
            items.append(_item(now, starts - now, None, number))
            cases.append(None)
        items.append(_item(starts, ends - starts, one, number, f"bar {score.bars[phrase.places[0].bar].number}"))
        cases.append(one.case)
        now = ends
    if not items:
        return found, None
    passage = Passage(
        name=line.part.name, title=_called(line), items=tuple(items), repeats=(), tempo_text=None,
        tempo_map=steady(Fraction(60)),
        meter=None, span=Span(1, 1, 2), spans={},
    )  # fmt: skip
    case = PassageCase(passage=passage, cases=tuple(cases))
    for finding in judge_passage(case):
        whole = finding.span == passage.span
        once(finding, phrases[0 if whole else finding.span.line - _CONTOUR])
    return found, case


def _called(line: PlayerLine) -> str:
    return line.part.name + (f", player {line.player + 1}" if line.players > 1 else "")


def _item(at: Fraction, lasts: Fraction, one: Judged | None, number: int, bar: str = "") -> PassageItem:
    """A phrase, called by its bar, or a rest; the line of its span is the phrase's number and a bit, since 1 is the
    whole passage."""
    return PassageItem(
        at=at,
        beats=lasts,
        gesture=one.case.gesture if one is not None else None,
        played=bar,
        span=Span(number + _CONTOUR, 1, 2),
    )


def _placed(finding: Finding, phrase: Phrase) -> _Located:
    index = _index(finding.span, phrase)
    point = phrase.gesture.points[index]
    note = point.pitch.name if isinstance(point.pitch, Spelling) else ""
    until = phrase.places[_index(finding.until, phrase)] if finding.until is not None else None
    return _Located(finding, phrase.places[index], note, until)


def _index(span: Span, phrase: Phrase) -> int:
    """The index of the note that a span belongs to: that of its point, or of the point a line leads from."""
    count = len(phrase.places)
    return (span.column - 1) % count if span.line == _CONTOUR else 0


def _struck_out(phrase: Phrase) -> Phrase:
    """A phrase with every repeat that strokes stand for as a note of its own."""
    if not any(mark in MEASURED for point in phrase.gesture.points for mark in point.marks):
        return phrase
    points: list[NewPoint] = []
    places: list[ScorePlace] = []
    fingers = iter(phrase.gesture.fingering)
    fingering: list[NewFingering] = []
    ends = (*(p.at for p in phrase.gesture.points[1:]), phrase.lasts)
    for point, place, end in zip(phrase.gesture.points, phrase.places, ends, strict=True):
        own = [] if point.pitch is None else [one for one in [next(fingers, None)] if one is not None]
        fingering += own
        word = next((word for word in MEASURED if word in point.marks), None)
        points.append(replace(point, marks=tuple(m for m in point.marks if m not in MEASURED)))
        places.append(place)
        if word is None or point.at is None or end is None:
            continue
        if (value := repeat_beats(word, end - point.at)) is not None:
            plain = NewPoint(pitch=point.pitch, about=point.about)
            times = range(1, int((end - point.at) / value))
            points += [replace(plain, at=point.at + n * value) for n in times]
            places += [ScorePlace(bar=place.bar, at=place.at + n * value) for n in times]
            fingering += own * len(times)
    gesture = replace(phrase.gesture, points=tuple(points), fingering=tuple(fingering))
    return replace(phrase, gesture=gesture, places=tuple(places))


def _in_seconds(gesture: NewGesture, paces: Paces) -> NewGesture:
    """The gesture with its times in seconds, as the tempos of the score have them."""
    return replace(
        gesture,
        points=tuple(_at(p, seconds_in(paces, p.at) if p.at is not None else None) for p in gesture.points),
        dynamics=tuple(
            NewLevel(level=n.level, at=seconds_in(paces, n.at) if n.at is not None else None, join=n.join)
            for n in gesture.dynamics
        ),
        lasts=seconds_in(paces, gesture.lasts or Fraction(0)),
        in_seconds=True,
    )


def _at(point: NewPoint, at: Fraction | None) -> NewPoint:
    """A point at another time. `replace` takes twice as long, and a part has thousands."""
    return NewPoint(
        pitch=point.pitch, about=point.about, at=at, line=point.line, growth=point.growth, turns_to=point.turns_to,
        ends=point.ends, marks=point.marks, words=point.words, syllable=point.syllable, graces=point.graces,
        after=point.after,
    )  # fmt: skip


def _grouped(score: NotatedScore, found: Iterable[_Located], times: ScoreTimes) -> list[ScoreFinding]:
    """The same findings together, the worst first."""
    first = next((n for n, bar in enumerate(score.bars) if any(t.quarters for t in bar.tempos)), len(score.bars))
    groups: defaultdict[tuple[str, Severity], list[tuple[_Located, str]]] = defaultdict(list)
    for one in found:
        finding = one.finding
        if finding.rule in _OF_OUR_PAGES:
            continue
        severity, text = finding.severity or Severity.CAUTION, finding.text
        if finding.rule in _LACKS:
            text = f"{_LACKS[finding.rule]}: {text}"
        if times.assumed and one.place.bar < first and _of_time(finding):
            text += _ASSUMED
            severity = Severity.CAUTION if severity is Severity.REFUSED else severity
        groups[finding.rule, severity].append((one, text))
    made = []
    for (rule, severity), rows in groups.items():
        rows.sort(key=lambda row: (-_excess(row[0].finding), row[0].place.bar, row[0].place.at))
        worst, text = rows[0]
        places = tuple(_place(score, one) for one, _ in rows)
        made.append(
            ScoreFinding(
                rule=rule,
                code=worst.finding.code,
                severity=severity,
                text=text,
                places=tuple(dict.fromkeys(places)),
                evidence=worst.finding.evidence,
                numbers=worst.finding.numbers,
            )
        )
    order = {id(one): max(_excess(row[0].finding) for row in groups[one.rule, one.severity]) for one in made}
    return sorted(made, key=lambda one: (-one.severity.rank, -order[id(one)], one.code))


def _of_time(finding: Finding) -> bool:
    """Whether it would be another at another tempo."""
    return any("a second" in n.unit or "/s" in n.unit or n.unit in _OF_TIME for n in finding.numbers)


def _excess(finding: Finding) -> float:
    """How far beyond its limit, as a share of it; 0 if no numbers tell."""
    for number in finding.numbers:
        if number.limit:
            return abs(float(number.value) - float(number.limit)) / abs(float(number.limit))
    return 0.0


def _place(score: NotatedScore, one: _Located) -> FoundPlace:
    until = score.bars[one.until.bar].number if one.until is not None else ""
    own = score.bars[one.place.bar].number
    return FoundPlace(
        bar=own,
        beat=score.beat(one.place.bar, one.place.at),
        note=one.note,
        until_bar=until if until != own else "",
    )
