"""Sketches that explain: a rule's own example, where it fires, and an easy gesture for a technique."""

from __future__ import annotations

from dataclasses import replace
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from gesturesmith import instruments, rules, techniques
from gesturesmith.checker import check_text
from gesturesmith.diagnostics import GestureReport, PassageReport
from gesturesmith.exercises.probes import easiest, lacking, probe_gestures
from gesturesmith.judge.gesture import judge
from gesturesmith.pipeline.sketch import drawn, sketches
from gesturesmith.rules.shared.doc import PLAYERS, sections
from gesturesmith.source import Source

if TYPE_CHECKING:
    from gesturesmith.writers import Item

_FIRST = ("horn", "trombone", "trumpet")  # asked before the others whether they have a technique


def example(name: str) -> Item | None:
    """The sketch of a rule, by name or code, or of a technique; None if `name` is neither.

    >>> example("bend").title
    'Lip bend, Horn in F'
    """
    if name in techniques.names():
        return _of_technique(name)
    rule = next((one for one in rules.all_rules() if name in (one.name, one.code.lower())), None)
    return _of_rule(rule.name) if rule is not None else None


def _of_rule(name: str) -> Item | None:
    checked = check_text(Source(name, sections(rules.get(name).doc)["Fires"]), folder=PLAYERS, suggestions=False)
    report = checked.report
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    shown = [said.name for said in everything if name in [finding.rule for finding in said.findings]]
    found = (one for only in shown for one in sketches(checked, only, PurePosixPath()))
    return next(found, None)


def _of_technique(name: str) -> Item | None:
    from gesturesmith.pictures.sketch import sketch

    technique = techniques.get(name)
    order = (*_FIRST, *(one for one in instruments.names() if one not in _FIRST))
    having = (one for one in map(instruments.get, order) if not lacking(technique, one))
    instrument = next(having, None)
    if instrument is None:
        return None
    best = easiest(technique, instrument)
    for shape in probe_gestures(technique, instrument):
        gesture = shape.at(best.note)
        if gesture is None:
            continue
        title = f"{technique.title['en']}, {instrument.part_name}"
        judged = judge(replace(gesture, name=name, title=title))
        if judged.verdict is best.verdict:
            return drawn(
                name, title, sketch(judged.case, judged.findings, judged.verdict.words), PurePosixPath(name)
            )
    return None
