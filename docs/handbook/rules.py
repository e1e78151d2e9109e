"""The rules: each from its docstring, its examples run."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gesturesmith import rules
from gesturesmith.explain.rules import rule_evidence
from gesturesmith.rules.base import Rule
from gesturesmith.rules.shared.doc import HEADINGS, sections
from handbook.markdown import MADE, table

RULE_GROUPS = {
    "2": "Harmonic series and range",
    "3": "Valves, hand, and time to change",
    "4": "Response",
    "5": "Register",
    "6": "Breath and endurance",
    "7": "Notation",
}


INTRODUCTION = (
    "What the checker looks for. A finding is *refused*, a *caution* or *advice*; `allow` with a rule's name "
    "and a reason silences a caution. Each rule's examples are run as its tests. `gesturesmith explain NAME` "
    "prints the same."
)


_EXAMPLES = {"Fires": "Where it has something to say", "Passes": "Where it has nothing to say"}


def rule_section(
    rule: Rule, *, heading: str = "###", target: str = "", examples: Mapping[str, str] | None = None
) -> str:
    """One rule from its docstring; the examples as gesture files.

    examples   shown instead of the plain files; target: a name for links, before the heading
    """
    said = sections(rule.doc)
    first = rule.doc.strip().partition("\n")[0]
    kind = f"{rule.code}, {rule.severity.value} unless it says otherwise"
    head = f"{target}{heading} `{rule.name}`"
    parts = [head, f"{first} ({kind}.)"] if examples else [f"{head} ({kind})", first]
    for name in HEADINGS:
        if name in ("Fires", "Passes"):
            shown = examples[name] if examples else f"```gesture\n{said[name]}\n```"
            parts.append(f"{_EXAMPLES[name] if examples else name}:\n\n{shown}")
        else:
            parts.append(f"**{name}**: {re.sub(r'\s*\n\s*', ' ', said[name]).strip()}")
    parts.append(f"**Source**, in the first example: {'; '.join(rule_evidence(rule))}")
    return "\n\n".join(parts)


def rules_page() -> str:
    parts = [
        "# Rules",
        MADE,
        INTRODUCTION,
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
