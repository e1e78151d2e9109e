"""Judges one gesture: how it would be played, what the rules find, and what `allow` and `fallback` change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache, lru_cache

from gesturesmith import techniques
from gesturesmith.diagnostics import Finding, Severity, Verdict
from gesturesmith.diagnostics.changes import DynamicsChange, LengthChange, TechniquesChange
from gesturesmith.judge.allow import Lifted, lift
from gesturesmith.judge.places import where
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.graces import has_graces, unfolded
from gesturesmith.realise.gesture import realise
from gesturesmith.rules import all_rules
from gesturesmith.rules.base import Case, Outcome, PassageCase, Rule
from gesturesmith.rules.shared.traits import traits
from gesturesmith.techniques.base import Technique
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Judged:
    """A gesture as it would be played, with its findings in file order."""

    case: Case
    findings: tuple[Finding, ...]

    @property
    def verdict(self) -> Verdict:
        return verdict_of(self.findings)

    @property
    def refusals(self) -> tuple[Finding, ...]:
        return tuple(f for f in self.findings if f.severity is Severity.REFUSED)


def verdict_of(findings: Iterable[Finding]) -> Verdict:
    """The verdict of the most severe finding; playable without findings or with advice only."""
    found = (f.severity for f in findings if f.severity is not None)
    return max(found, key=lambda severity: severity.rank, default=Severity.ADVICE).verdict


def in_file_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """By position, then code: the same in whatever order the rules ran."""
    return tuple(sorted(findings, key=lambda f: (f.span.line, f.span.column, f.code, f.text)))


def as_asked(gesture: Gesture) -> Case:
    """A gesture with the best way to play it, before anything judges it."""
    return Case(gesture=gesture, realisation=realise(gesture))


def judge(gesture: Gesture) -> Judged:
    """Realise a gesture, run every rule on it, apply its `allow` and `fallback`."""
    return judge_case(as_asked(gesture))


def judge_case(case: Case) -> Judged:
    """The same for a gesture already realised."""
    gesture = case.gesture
    found, lifted = _tried(case)
    asked = case
    replaced: tuple[Finding, ...] = ()
    if gesture.fallback and _refused(lifted.findings):
        second = _with_fallback(gesture, gesture.fallback)
        if second is not None:
            replaced = _refused(lifted.findings)
            case, found, lifted = second
    outcome = Outcome(
        case=case,
        found=found,
        asked=asked,
        silent=lifted.silent,
        barred=lifted.barred,
        replaced=replaced,
    )
    on_outcome = [
        _complete(f, rule, case.gesture)
        for rule in _rules("outcome")
        for f in rule.check_outcome(outcome)  # type: ignore[misc]  # chosen for having it
    ]
    return Judged(case=case, findings=in_file_order((*lifted.findings, *on_outcome)))


def judge_passage(case: PassageCase) -> tuple[Finding, ...]:
    """The findings of the rules for passages, in file order."""
    found = [
        _complete(f, rule, None)
        for rule in _rules("passage")
        for f in rule.check_passage(case)  # type: ignore[misc]  # chosen for having it
    ]
    return in_file_order(found)


@cache
def _rules(kind: str) -> tuple[Rule, ...]:
    """The rules that check a "gesture", a "passage" or an "outcome"."""
    checks = {"gesture": "check", "passage": "check_passage", "outcome": "check_outcome"}
    return tuple(r for r in all_rules() if getattr(r, checks[kind]) is not None)


@lru_cache(maxsize=1024)
def _rules_for(has: frozenset[str]) -> tuple[Rule, ...]:
    """The rules that may have findings on a gesture with these traits, by code."""
    return tuple(r for r in _rules("gesture") if not r.only or r.only & has)


def refuses(name: str, case: Case) -> bool:
    """Whether a rule refuses a gesture for good: without an `allow` or a `fallback` that may help."""
    gesture = case.gesture
    if gesture.allows or gesture.fallback:
        return False
    return any(
        _severity(finding, rule) is Severity.REFUSED
        for rule in _rules_for(traits(gesture))
        if rule.name == name
        for finding in rule.check(case)  # type: ignore[misc]  # chosen for having it
    )


def _tried(case: Case) -> tuple[tuple[Finding, ...], Lifted]:
    found = tuple(_found(case))
    return found, lift(found, case.gesture.allows)


def _found(case: Case) -> Iterator[Finding]:
    for rule in _rules_for(traits(case.gesture)):
        for finding in rule.check(case):  # type: ignore[misc]  # chosen for having it
            yield _complete(finding, rule, case.gesture)
    yield from _of_graces(case)


def _of_graces(case: Case) -> Iterator[Finding]:
    """The findings on the grace notes of a gesture, judged as notes with all the time available to them.

    Proposed fixes refer to points of that gesture and are dropped, unless they concern the gesture as a whole.
    """
    if not has_graces(case.gesture):
        return
    slow = unfolded(case.gesture, slowest=True)
    own = {s for p in case.gesture.points for g in (*p.graces, *p.after) for s in (g.point.span, g.join.span)}
    realisation = replace(realise(slow), used_fallback=case.realisation.used_fallback)
    for rule in _rules_for(traits(slow)):
        if rule.graces:
            for finding in rule.check(replace(case, gesture=slow, realisation=realisation)):  # type: ignore[misc]
                if finding.span in own:
                    whole = tuple(
                        fix for fix in finding.proposed_fixes if all(isinstance(c, _OF_THE_WHOLE) for c in fix)
                    )
                    yield _complete(replace(finding, proposed_fixes=whole), rule, case.gesture)


_OF_THE_WHOLE = (TechniquesChange, LengthChange, DynamicsChange)


def _complete(finding: Finding, rule: Rule, gesture: Gesture | None) -> Finding:
    """A finding with its rule, its place in words, and a severity its evidence supports."""
    severity = _severity(finding, rule)
    place = finding.where
    if not place and gesture is not None:
        place = where(gesture, finding.span)
    whose = finding.evidence.whose
    text = f"{finding.text} ({whose})" if whose else finding.text
    return replace(finding, code=rule.code, rule=rule.name, severity=severity, where=place, text=text)


def _severity(finding: Finding, rule: Rule) -> Severity:
    severity = finding.severity or rule.severity
    return severity if severity is not Severity.REFUSED or finding.evidence.kind.may_refuse else Severity.CAUTION


def _refused(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    return tuple(f for f in findings if f.severity is Severity.REFUSED)


def _with_fallback(gesture: Gesture, key: str) -> tuple[Case, tuple[Finding, ...], Lifted] | None:
    """The gesture with its fallback in place of a technique, unless that is refused as well.

    It replaces the technique of its own layer; else the first whose removal helps; else all.
    """
    fallback = techniques.get(key)
    own = [t for t in gesture.techniques if t.layer == fallback.layer]
    ways: list[tuple[Technique, ...]] = [(t,) for t in own or gesture.techniques]
    if not own and len(gesture.techniques) > 1:
        ways.append(gesture.techniques)
    for way in ways:
        case = as_asked(_exchanged(gesture, way, fallback))
        case = replace(case, realisation=replace(case.realisation, used_fallback=key))
        found, lifted = _tried(case)
        if not _refused(lifted.findings):
            return case, found, lifted
    return None


def _exchanged(gesture: Gesture, out: tuple[Technique, ...], into: Technique) -> Gesture:
    def changed(row: tuple[Technique, ...]) -> tuple[Technique, ...]:
        gone = {t.key for t in out}
        at = next((i for i, t in enumerate(row) if t.key in gone), None)
        if at is None:
            return row
        return (*(t for t in row[:at]), into, *(t for t in row[at:] if t.key not in gone))

    points = tuple(replace(p, techniques=changed(p.techniques)) for p in gesture.points)
    return replace(gesture, techniques=changed(gesture.techniques), points=points)
