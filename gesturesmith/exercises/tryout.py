"""Try-out sheets: which limits to ask a player about, and the gestures on both sides of each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any

from gesturesmith import techniques
from gesturesmith.diagnostics import FileReport, Severity
from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Limit
from gesturesmith.exercises import trials
from gesturesmith.exercises.trials.base import Family
from gesturesmith.instruments.base import Instrument, Register
from gesturesmith.judge.gesture import judge
from gesturesmith.model.builder import make
from gesturesmith.rules.base import Case
from gesturesmith.rules.shared.limits import of_technique
from gesturesmith.values import frozen

_WEAK = (HOUSE, MEMORY)
_REGISTERS = ("middle", "low", "high", "top")  # in which they are asked about, where files do not decide


@frozen(kw_only=True)
class TrialGesture:
    """One gesture to try.

    value   what the limit would be if this were just playable: a number in its unit, or a level
    """

    value: Any
    case: Case


@frozen(kw_only=True)
class Question:
    """Trials of one limit, the easiest first. `register` is "" for a limit without registers."""

    limit: str
    family: Family
    register: str
    unit: str
    trials: tuple[TrialGesture, ...]


@lru_cache(maxsize=8)
def questions(instrument: Instrument) -> tuple[Question, ...]:
    """Every question there is about an instrument, by family and register: those whose easiest trial passes and
    whose hardest the limit's rule questions. What other rules refuse is left out.
    """
    found = (_question(instrument, family, place) for family, place in _places(instrument))
    return tuple(question for question in found if question is not None)


def decided(reports: Iterable[FileReport], instrument: Instrument) -> Mapping[str, int]:
    """How many cautions and refusals rest on each limit that is only ours or from memory."""
    counts: Counter[str] = Counter()
    by_rule: dict[str, list[str]] = {}
    for family, place in _places(instrument):
        by_rule.setdefault(family.rule, []).append(_name(family, place))
    for report in reports:
        found = [f for gesture in report.gestures for f in gesture.findings]
        for finding in (*found, *(f for passage in report.passages for f in passage.findings)):
            weak = finding.evidence.kind in _WEAK and finding.severity not in (None, Severity.ADVICE)
            near = [
                name
                for name in by_rule.get(finding.rule, ())
                if weak and _known(instrument, name).narrow.source == finding.evidence.source
            ]
            exact = [name for name in near if _known(instrument, name).narrow == finding.evidence]
            counts.update(exact or near)
    return counts


def chosen(instrument: Instrument, counts: Mapping[str, int], most: int) -> tuple[Question, ...]:
    """The questions to ask first: what decided most in the files, then limits that are only ours or from memory,
    one of each family before a second.
    """
    there = questions(instrument)
    weakest = sorted(there, key=lambda q: (-counts.get(q.limit, 0), *_rank(instrument, q)))
    taken: Counter[str] = Counter()
    turns = {}
    for question in weakest:
        turns[question.limit] = taken[question.family.limit]
        taken[question.family.limit] += 1
    order = sorted(weakest, key=lambda q: (-counts.get(q.limit, 0), turns[q.limit], *_rank(instrument, q)))
    return tuple(order[:most])


def _rank(instrument: Instrument, question: Question) -> tuple[int, int, str]:
    kind = _known(instrument, question.limit).narrow.kind
    place = _REGISTERS.index(question.register) if question.register else 0
    return (0 if kind in _WEAK else 1 if kind is PRACTICE else 2, place, question.limit)


def _places(instrument: Instrument) -> Iterable[tuple[Family, Register]]:
    usual = instrument.register("middle") or instrument.registers[0]
    for name in trials.names():
        family = trials.get(name)
        if not instrument.gives(family.needs):
            continue
        for register in instrument.registers if family.in_registers else (usual,):
            if limit_of(instrument, _name(family, register)) is not None:
                yield family, register


def limit_of(instrument: Instrument, name: str) -> Limit | None:
    """A limit by its name in profiles: the instrument's, or that of a technique, "growl.longest_s"."""
    key, _, own = name.partition(".")
    if own and key in techniques.names():
        return of_technique(instrument, techniques.get(key), own)
    return instrument.limits.get(name)


def _known(instrument: Instrument, name: str) -> Limit:
    """The same for a limit that is there."""
    limit = limit_of(instrument, name)
    assert limit is not None, name
    return limit


def _name(family: Family, register: Register) -> str:
    return f"{family.limit}_{register.name}" if family.in_registers else family.limit


def _question(instrument: Instrument, family: Family, register: Register) -> Question | None:
    name = _name(family, register)
    limit = _known(instrument, name)
    tried, passed = [], []
    for value in family.values(limit.narrow.value):
        gesture, errors = make(family.gesture(instrument, register, value))
        if gesture is None:
            raise ValueError(f"{name}: {[e.message for e in errors]}")
        judged = judge(gesture)
        if all(f.rule == family.rule for f in judged.refusals):
            tried.append(TrialGesture(value=value, case=judged.case))
            passed.append(all(f.rule != family.rule for f in judged.findings))
    if not passed or not passed[0] or passed[-1]:
        return None
    return Question(
        limit=name,
        family=family,
        register=register.name if family.in_registers else "",
        unit="" if limit.unit == "level" else limit.unit,
        trials=tuple(tried),
    )
