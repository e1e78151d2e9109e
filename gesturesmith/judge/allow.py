"""Applies `allow`: it silences a caution and turns a refusal into one."""

from __future__ import annotations

from dataclasses import replace

from gesturesmith.diagnostics import Finding, Severity
from gesturesmith.model.gesture import Allow
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Lifted:
    """Findings after every `allow`; allows that matched none, and those that matched only what none can lift."""

    findings: tuple[Finding, ...]
    silent: tuple[int, ...] = ()
    barred: tuple[int, ...] = ()


def lift(findings: tuple[Finding, ...], allows: tuple[Allow, ...]) -> Lifted:
    """Apply the allows of a gesture."""
    if not allows:
        return Lifted(findings=findings)
    met: dict[int, bool] = {}  # index of the allow -> whether it lifted anything
    left = []
    for finding in findings:
        number = next((i for i, a in enumerate(allows) if a.rule.casefold() == finding.rule), None)
        if number is None:
            left.append(finding)
            continue
        met[number] = met.get(number, False) or not finding.physical
        if finding.physical:
            left.append(finding)
        elif finding.severity is Severity.REFUSED:
            reason = f"{finding.text} (allowed: {allows[number].reason})"
            left.append(replace(finding, severity=Severity.CAUTION, text=reason, proposed_fixes=(), hint=""))
    return Lifted(
        findings=tuple(left),
        silent=tuple(i for i in range(len(allows)) if i not in met),
        barred=tuple(i for i, lifted in sorted(met.items()) if not lifted),
    )
