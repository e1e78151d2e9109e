"""The values of a report, as the language page describes them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field
from enum import Enum
from fractions import Fraction
from typing import Any, NamedTuple

from gesturesmith.diagnostics.changes import Fix
from gesturesmith.evidence import Sourced
from gesturesmith.kinds import Correction, Tonguing
from gesturesmith.source import Source, Span
from gesturesmith.values import frozen


class Severity(Enum):
    """The severity of a finding. A gesture's verdict is that of its most severe finding; advice leaves it playable.

    >>> [(severity.value, severity.verdict.words) for severity in gesturesmith.Severity]
    [('advice', 'playable'), ('caution', 'with care'), ('refused', 'not as written')]
    """

    ADVICE = "advice"
    CAUTION = "caution"
    REFUSED = "refused"

    @property
    def rank(self) -> int:
        return ("advice", "caution", "refused").index(self.value)

    @property
    def verdict(self) -> Verdict:
        return (Verdict.PLAYABLE, Verdict.WITH_CARE, Verdict.NOT_AS_WRITTEN)[self.rank]

    @property
    def heading(self) -> str:
        """The start of a finding for people: the resulting verdict, or that it is advice."""
        return "advice" if self is Severity.ADVICE else self.verdict.words


class Verdict(Enum):
    """The checker's verdict on a gesture: the same words for people and, joined by hyphens, in JSON.

    >>> [verdict.words for verdict in gesturesmith.Verdict]
    ['playable', 'with care', 'not as written']
    """

    PLAYABLE = "playable"
    WITH_CARE = "with-care"
    NOT_AS_WRITTEN = "not-as-written"

    @property
    def words(self) -> str:
        return self.value.replace("-", " ")


@frozen(kw_only=True)
class ReadError:
    """Something in a file that could not be read.

    >>> (error,) = gesturesmith.check(text.replace("contour", "conture")).errors
    >>> error.code, error.span.line, error.nearest
    ('GS101', 6, ('contour',))
    """

    code: str
    rule: str
    span: Span
    message: str
    nearest: tuple[str, ...] = ()
    gesture: str | None = None  # its block, if known


@frozen(kw_only=True)
class Number:
    """A measured quantity with its limit, in `unit`.

    >>> number = gesturesmith.check(high).gestures[0].findings[0].numbers[0]
    >>> number.name, float(number.value), number.limit, number.unit
    ('sounding pitch', 8400.0, 7900, 'cents above C-1')
    """

    name: str
    value: Fraction | float | int
    limit: Fraction | float | int | None = None
    unit: str = ""


@frozen
class Edit:
    """Replace `old` by `new` on `line`; an empty `old` adds `new` as a line after `line`.

    >>> gesturesmith.suggest(high).gestures[0].findings[0].suggestions[0].edits
    (Edit(line=5, old='contour: G6', new='contour: G5'),)
    """

    line: int
    old: str
    new: str


@frozen(kw_only=True)
class Suggestion:
    """Edits that were checked, with the verdict on the result.

    `words` describe the edits if there would be too many lines to show.

    >>> suggestion = gesturesmith.suggest(high).gestures[0].findings[0].suggestions[0]
    >>> suggestion.in_words, suggestion.verdict.words, suggestion.changes_music
    ('contour: G5', 'playable', True)
    """

    edits: tuple[Edit, ...]
    verdict: Verdict
    changes_music: bool = False
    words: str = ""

    @property
    def in_words(self) -> str:
        """What to write: `words` if there are any, else the resulting lines without indentation."""
        return self.words or "; ".join(edit.new.strip() for edit in self.edits if edit.new.strip())


@frozen(kw_only=True)
class Finding:
    """A finding of a rule.

    `text` says what was measured against which limit, `hint` suggests one thing to do. `proposed_fixes` come from
    the rule; the checker tries each and turns those that pass into `suggestions`.

    >>> (finding,) = gesturesmith.check(high).gestures[0].findings
    >>> finding.code, finding.rule, finding.severity.value, finding.where
    ('GS501', 'outside-range', 'refused', 'first note (written G6)')
    """

    span: Span
    text: str
    evidence: Sourced[Any]
    hint: str = ""
    code: str = ""
    rule: str = ""
    severity: Severity | None = None  # None: the rule's own
    where: str = ""  # "third note (written C6)", filled in by the checker if the rule leaves it empty
    numbers: tuple[Number, ...] = ()
    proposed_fixes: tuple[Fix, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    physical: bool = False  # impossible for any tube or range: `allow` cannot lift it
    until: Span | None = None  # the last note of the stretch that it is about, if it is about one


type Comfortable = tuple[float | str | None, float | str | None]


class Demand(NamedTuple):
    """One reason why a gesture is hard: a quantity outside its comfortable range.

    name          one of the quantities of `gesturesmith explain difficulty`
    value         what the gesture asks for; a level by its name
    comfortable   the lowest and the highest comfortable value, None for no bound
    share         0 at the end of the comfortable range, one half where the checker begins to warn, up to 1

    >>> gesturesmith.check(text).gestures[0].demands[0]
    Demand(name='technique', value=0.3, comfortable=(None, 0.0), unit='of 1', share=0.3)
    """

    name: str
    value: float | str
    comfortable: Comfortable
    unit: str
    share: float


@frozen(kw_only=True)
class PointReport:
    """How one point of a gesture is played.

    at          beats from the start of the gesture
    side        side of a double instrument: "F", "Bb", "" if there is only one; None, like the fields below, if no
                tube is needed or none gives the pitch
    valves      the valves down, "0" for none; on a trombone, the slide position
    partial     number of the partial, 0 for none
    cents       pitch of that partial minus the pitch asked for, before any correction
    correction  what corrects it: "" | "lip" | "slide" | "hand"
    trill       the second fingering of a trill, "" for none

    >>> gesturesmith.check(text).gestures[0].realisation.points[0]
    PointReport(at=Fraction(0, 1), side='F', valves='0', partial=6, cents=2, correction='', trill='')
    """

    at: Fraction
    side: str | None = None
    valves: str | None = None
    partial: int | None = None
    cents: int | None = None
    correction: Correction = ""
    trill: str = ""


@frozen(kw_only=True)
class RealisationReport:
    """How the instrument plays a gesture.

    techniques   names of the techniques played
    points       one for each sounding point, in order
    tube         the one tube of a held or swept gesture, "" for none
    partials     those a harmonic glissando passes, in order
    starts_cents, lands_cents   where a sweep starts and lands, sounding, above C-1; None without a sweep
    pattern      the tubes of the chromatic notes that a fingered glissando or run passes, in order
    breaks       indices of points, from 0, before which a slide has to break
    fallback     the technique that replaced the one asked for, "" for none
    tonguing     "double" where single tonguing is too slow and the composer names none, else ""

    >>> gesturesmith.check(text).gestures[0].realisation.techniques
    ('half-valve',)
    """

    techniques: tuple[str, ...]
    points: tuple[PointReport, ...] = ()
    tube: str = ""
    partials: tuple[int, ...] = ()
    starts_cents: int | None = None
    lands_cents: int | None = None
    pattern: tuple[str, ...] = ()
    breaks: tuple[int, ...] = ()
    fallback: str = ""
    tonguing: Tonguing = ""


@frozen
class PartName:
    """A part of a file for several instruments: its name, and its title for people.

    >>> duo = "part one \\"Horn 1\\"\\n  instrument: horn\\n  pitches: written\\n"
    >>> gesturesmith.check(duo + "passage p\\n  one: G4 for 2").passages[0].part
    PartName(name='one', title='Horn 1')
    """

    name: str
    title: str


@frozen(kw_only=True)
class GestureReport:
    """A gesture, its verdict, its findings in file order and how it is played.

    `difficulty` is 0 to 100, `demands` are its reasons, the heaviest first; `part` plays it, None in a file
    without parts.

    >>> (call,) = gesturesmith.check(text).gestures
    >>> call.name, call.verdict.words, call.difficulty
    ('call', 'playable', 41)
    """

    name: str
    title: str | None
    span: Span
    verdict: Verdict
    findings: tuple[Finding, ...] = ()
    realisation: RealisationReport | None = None
    difficulty: int | None = None
    demands: tuple[Demand, ...] = ()
    part: PartName | None = None


@frozen(kw_only=True)
class PassageReport:
    """A passage: its verdict is the worst of its own findings and of everything it plays.

    >>> (twice,) = gesturesmith.check(text + "passage twice\\n  play: call, call\\n").passages
    >>> twice.name, twice.verdict.words
    ('twice', 'playable')
    """

    name: str
    title: str | None
    span: Span
    verdict: Verdict
    findings: tuple[Finding, ...] = ()
    difficulty: int | None = None
    demands: tuple[Demand, ...] = ()
    part: PartName | None = None


@frozen(kw_only=True)
class ExerciseReport:
    """An exercises block: the number of its variants, and those left out, with the reason.

    `kept` names the variants on the sheet, with their difficulty, in the order to practise them.

    >>> (rising,) = gesturesmith.check(text + "exercises rising\\n  from: call\\n  start: G4..A4 by 1\\n").exercises
    >>> rising.made, rising.kept
    (3, (('from G4', 41), ('from Ab4', 43), ('from A4', 46)))
    """

    name: str
    title: str | None
    span: Span
    made: int
    left_out: tuple[tuple[str, str], ...] = ()
    kept: tuple[tuple[str, int], ...] = ()
    part: PartName | None = None


@frozen(kw_only=True)
class FileReport:
    """The report on one file.

    readable   whether all of it could be read
    unread     name and title (else the name again) of each gesture and passage that could not be read or plays one
               that could not
    untried    gestures and passages for which not all suggestions were tried, because others had used up the work

    >>> report = gesturesmith.check(text)
    >>> report.readable, report.refused, [gesture.name for gesture in report.gestures]
    (True, False, ['call'])
    """

    source: Source
    readable: bool
    errors: tuple[ReadError, ...] = ()
    gestures: tuple[GestureReport, ...] = ()
    passages: tuple[PassageReport, ...] = ()
    exercises: tuple[ExerciseReport, ...] = ()
    unread: tuple[tuple[str, str], ...] = ()
    untried: tuple[str, ...] = ()

    @property
    def usable(self) -> bool:
        """Whether the part that could be read is reliable: every mistake is in a block, none in the settings."""
        return self.readable or all(error.gesture is not None for error in self.errors)

    @property
    def refused(self) -> bool:
        return Verdict.NOT_AS_WRITTEN in self._verdicts

    @property
    def with_care(self) -> bool:
        """Whether anything in it is playable with care only."""
        return Verdict.WITH_CARE in self._verdicts

    @property
    def _verdicts(self) -> tuple[Verdict, ...]:
        return (*(g.verdict for g in self.gestures), *(p.verdict for p in self.passages))

    def _repr_html_(self) -> str:
        """A table for notebooks: a row for each error, each finding, and each gesture without any."""
        from gesturesmith.diagnostics.table import table

        return table(("line", "gesture", "verdict", "finding", "what would work"), self._rows())

    def _rows(self) -> Iterator[tuple[str, ...]]:
        for error in self.errors:
            yield (
                str(error.span.line),
                error.gesture or "",
                "cannot be read",
                error.message,
                ", ".join(error.nearest),
            )
        everything: tuple[GestureReport | PassageReport, ...] = (*self.gestures, *self.passages)
        for said in everything:
            if not said.findings:
                yield str(said.span.line), _called(said), said.verdict.words, "", ""
            for finding in said.findings:
                where = f"{finding.where}: " if finding.where else ""
                ways = "; ".join(suggestion.in_words for suggestion in finding.suggestions)
                text = f"{where}{finding.text} ({finding.rule})"
                yield (
                    str(finding.span.line),
                    _called(said),
                    said.verdict.words,
                    text,
                    ways or finding.hint,
                )


def _called(said: GestureReport | PassageReport) -> str:
    """Its name for people, and the part that plays it."""
    return f"{said.title or said.name}{f', {said.part.title}' if said.part is not None else ''}"


@frozen(kw_only=True)
class FoundPlace:
    """A place in a score: the number of the bar as printed, the beat from 1, the written note there, "" if none.

    `until_bar`: the number of the last bar of a stretch, "" for a single place.
    """

    bar: str
    beat: Fraction
    note: str = ""
    until_bar: str = ""


@frozen(kw_only=True)
class ScoreFinding:
    """One finding on a part of a score, with every place where it applies, the worst first; the text and numbers
    are those of the worst."""

    rule: str
    code: str
    severity: Severity
    text: str
    places: tuple[FoundPlace, ...]
    evidence: Sourced[Any]
    numbers: tuple[Number, ...] = ()


@frozen(kw_only=True)
class ScorePartReport:
    """One part of a score.

    part         its name; `player` its number among several who read it, from 1, else 0
    instrument   what it was taken for, and `why`
    written      how it is written if not as that instrument is ("in E-flat"), else ""
    notes        how many there are, ties joined and repeats once
    """

    part: str
    player: int
    instrument: str
    instrument_name: str
    why: str
    written: str
    notes: int
    verdict: Verdict
    findings: tuple[ScoreFinding, ...] = ()


@frozen(kw_only=True)
class ScoreReport:
    """The report on one score.

    readable   whether all of it could be read
    bars       how many there are
    tempo      quarters per minute assumed where the score has none, else None
    others     parts that are for other instruments
    left_out   signs that say nothing to a brass player, with their number
    """

    file: str
    readable: bool
    title: str = ""
    errors: tuple[ReadError, ...] = ()
    bars: int = 0
    tempo: Fraction | None = None
    parts: tuple[ScorePartReport, ...] = ()
    others: tuple[str, ...] = ()
    left_out: tuple[tuple[str, int], ...] = ()

    @property
    def refused(self) -> bool:
        return any(part.verdict is Verdict.NOT_AS_WRITTEN for part in self.parts)


@frozen(kw_only=True)
class Report:
    """The reports of all files of a run; `scores` are those that were made elsewhere."""

    files: tuple[FileReport, ...] = field(default=())
    scores: tuple[ScoreReport, ...] = field(default=())
