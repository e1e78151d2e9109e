"""Explains a rule, with the evidence of its findings on its own example."""

from __future__ import annotations

import textwrap
from itertools import chain

from gesturesmith import rules
from gesturesmith.checker import check_text
from gesturesmith.rules.base import Rule
from gesturesmith.rules.shared.doc import PLAYERS, sections
from gesturesmith.source import Source

_WIDTH = 96


def explain_rule(name_or_code: str) -> str | None:
    """The rule as text, with its evidence; None if there is no such rule."""
    text = rules.explain(name_or_code)
    wanted = name_or_code.strip().casefold()
    rule = next((r for r in rules.all_rules() if wanted in (r.name, r.code.casefold())), None)
    if text is None or rule is None:
        return text
    said = f"{'; '.join(rule_evidence(rule))} (in the first example; each finding has its own under `check --json`)"
    return (
        text
        + textwrap.fill(
            said,
            _WIDTH,
            initial_indent="Source  ",
            subsequent_indent=" " * 8,
            break_long_words=False,
            break_on_hyphens=False,
        )
        + "\n"
    )


def rule_evidence(rule: Rule) -> tuple[str, ...]:
    """The kind and source of evidence of a rule's findings on its first example, each once."""
    source = Source(rule.name, sections(rule.doc)["Fires"])
    report = check_text(source, folder=PLAYERS, suggestions=False).report
    everything = chain(*(g.findings for g in report.gestures), *(p.findings for p in report.passages))
    found = [f for f in everything if f.rule == rule.name]
    return tuple(dict.fromkeys(f"{f.evidence.kind.value}: {f.evidence.source}" for f in found))
