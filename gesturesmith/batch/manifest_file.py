"""The manifest: every output with its sources, findings and hash."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from typing import Any

from gesturesmith.batch.types import BuildResult, OutputRecord
from gesturesmith.diagnostics import FileReport, GestureReport, PassageReport, Severity, json_text, part_of
from gesturesmith.version import __version__
from gesturesmith.writers.base import MARK, with_checksum

SCHEMA = 2


def manifest_json(done: Iterable[BuildResult], unread: Iterable[tuple[str, str]]) -> bytes:
    """The manifest of a run as JSON; it does not depend on where the output folder is.

    `unread`: name and reason of each file that could not be read. Outputs are in the order of their paths,
    sources in that of their names; a source of several builds appears once.
    """
    sources: dict[str, dict[str, Any]] = {}
    outputs: dict[str, dict[str, Any]] = {}
    for one in done:
        for report in one.reports:
            sources.setdefault(report.source.name, _source(report))
        for made in one.outputs:
            outputs[str(made.place)] = _output(made, one)
        problems = [f"{f.gesture or 'page'}: {f.summary}" for f in one.failures]
        problems += [one.blocked.reason] if one.blocked is not None else []
        problems += [f"a bug in Gesturesmith: {type(one.bug).__name__}"] if one.bug is not None else []
        if problems:
            for source in one.build.sources:
                known = sources.setdefault(source.name, {"file": source.name})
                known.setdefault("failed", []).extend(problems)
    for name, reason in unread:
        sources[name] = {"file": name, "failed": [reason]}
    value = {
        "schema": SCHEMA,
        "tool": __version__,
        "about": MARK,
        "sources": [sources[name] for name in sorted(sources)],
        "outputs": [outputs[place] for place in sorted(outputs)],
    }
    before, after = json_text(value).split(MARK, 1)  # no user text precedes "about"
    return with_checksum(before.encode(), after.encode())


def _source(report: FileReport) -> dict[str, Any]:
    text = report.source.text.encode("utf-8", "surrogatepass")
    found: dict[str, Any] = {"file": report.source.name, "sha256": hashlib.sha256(text).hexdigest()}
    if report.errors:
        found["failed"] = [f"line {e.span.line}: {e.message}" for e in report.errors]
    if report.unread:
        found["unread"] = [name for name, _ in report.unread]
    found["gestures"] = [_said(g) for g in report.gestures]
    found["passages"] = [_said(p) for p in report.passages]
    return found


def _said(said: GestureReport | PassageReport) -> dict[str, Any]:
    return {"name": said.name, **part_of(said.part), "verdict": said.verdict.value}


def _output(made: OutputRecord, done: BuildResult) -> dict[str, Any]:
    shown = set(made.excerpts)
    return {
        "file": str(made.place),
        "sha256": made.sha256,
        "from": [report.source.name for report in done.reports],
        "shows": list(made.excerpts),
        "findings": [finding for report in done.reports for finding in _findings(report, shown)],
        **({"lacks": list(made.lacks)} if made.lacks else {}),
    }


def _findings(report: FileReport, shown: set[str]) -> list[dict[str, Any]]:
    everything: tuple[GestureReport | PassageReport, ...] = (*report.gestures, *report.passages)
    return [
        {
            "file": report.source.name,
            "name": said.name,
            **part_of(said.part),
            "line": finding.span.line,
            "code": finding.code,
            "rule": finding.rule,
            "severity": (finding.severity or Severity.CAUTION).value,
            "where": finding.where,
            "message": finding.text,
        }
        for said in everything
        if said.name in shown
        for finding in said.findings
    ]
