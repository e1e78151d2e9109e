"""Reports, completions and ways out as values of the protocol."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lsprotocol import types

from gesturesmith.diagnostics import (
    FileReport,
    Finding,
    GestureReport,
    PassageReport,
    ReadError,
    Severity,
    Suggestion,
)
from gesturesmith.editing.complete import Completion, OfferKind
from gesturesmith.editing.hover import instrument_help, rule_help, technique_help
from gesturesmith.editing.names import occurrences
from gesturesmith.editing.outline import Outlined
from gesturesmith.editing.text import TextChange, changes
from gesturesmith.kinds import BlockKind
from gesturesmith.lsp.documents import Places

NAME = "gesturesmith"
_SEVERITY = {
    Severity.REFUSED: types.DiagnosticSeverity.Error,
    Severity.CAUTION: types.DiagnosticSeverity.Warning,
    Severity.ADVICE: types.DiagnosticSeverity.Information,
}
_COMPLETED: dict[OfferKind, types.CompletionItemKind] = {
    "block": types.CompletionItemKind.Keyword,
    "key": types.CompletionItemKind.Property,
    "value": types.CompletionItemKind.Value,
    "technique": types.CompletionItemKind.Function,
    "instrument": types.CompletionItemKind.Class,
    "pitch": types.CompletionItemKind.Constant,
    "height": types.CompletionItemKind.Constant,
    "word": types.CompletionItemKind.EnumMember,
    "line": types.CompletionItemKind.Operator,
    "name": types.CompletionItemKind.Reference,
    "rule": types.CompletionItemKind.Event,
}
_SYMBOLS: dict[BlockKind, types.SymbolKind] = {
    "gesture": types.SymbolKind.Function,
    "passage": types.SymbolKind.Module,
    "exercises": types.SymbolKind.Array,
    "part": types.SymbolKind.Class,
    "box": types.SymbolKind.Struct,
}
_BLOCK_OF_WORK = 1000  # findings and mistakes that are told of one text


# --- diagnostics -----------------------------------------------------------------------------------------


def diagnostics(report: FileReport, there: Places, uri: str) -> list[types.Diagnostic]:
    """Every mistake and finding, in file order, each once."""
    found = [_mistake(error, there) for error in report.errors]
    for said in everything(report):
        found += [_finding(finding, said, report, there, uri) for finding in said.findings]
    once = {(d.range.start.line, d.range.start.character, d.code, d.message): d for d in found}
    row = sorted(once.values(), key=lambda d: (d.range.start.line, d.range.start.character))
    return row[:_BLOCK_OF_WORK]


def everything(report: FileReport) -> tuple[GestureReport | PassageReport, ...]:
    """The reports on all gestures and passages of a file."""
    return (*report.gestures, *report.passages)


def _mistake(error: ReadError, there: Places) -> types.Diagnostic:
    return types.Diagnostic(
        range=there.span(error.span),
        message=error.message,
        severity=types.DiagnosticSeverity.Error,
        code=error.code,
        source=NAME,
        data={"rule": error.rule},
    )


def _finding(
    finding: Finding, said: GestureReport | PassageReport, report: FileReport, there: Places, uri: str
) -> types.Diagnostic:
    severity = finding.severity or Severity.CAUTION
    part = f" ({said.part.title})" if said.part is not None else ""
    where = f"{finding.where}: " if finding.where else ""
    hint = f" {finding.hint[:1].upper()}{finding.hint[1:]}." if finding.hint else ""
    return types.Diagnostic(
        range=there.span(finding.span),
        message=f"{severity.heading}: {where}{finding.text}{part}.{hint}".replace("..", "."),
        severity=_SEVERITY[severity],
        code=finding.code,
        source=NAME,
        related_information=list(_related(finding, report, there, uri)) or None,
        data={"rule": finding.rule, "name": said.name},
    )


def _related(
    finding: Finding, report: FileReport, there: Places, uri: str
) -> Iterator[types.DiagnosticRelatedInformation]:
    """The end of the stretch that a finding is about, and the block that it is about where that is another."""
    if finding.until is not None:
        yield _place(uri, there.span(finding.until), "as far as here")
    verdicts = {said.name: said.verdict.words for said in reversed(everything(report))}
    for place in occurrences(there.source, finding.span.line, finding.span.column):
        if place.defines and place.span.line != finding.span.line and place.name in verdicts:
            yield _place(uri, there.span(place.span), f"{place.name} is {verdicts[place.name]}")


def _place(uri: str, where: types.Range, message: str) -> types.DiagnosticRelatedInformation:
    return types.DiagnosticRelatedInformation(types.Location(uri, where), message)


def finding_help(report: FileReport, line: int, column: int) -> tuple[str, ...]:
    """What was found at a cursor and why, in Markdown."""
    rows = [
        f"**Cannot be read** ({e.rule}, {e.code}): {e.message}"
        for e in report.errors
        if e.span.line == line and e.span.column <= column <= max(e.span.end_column, e.span.column + 1)
    ]
    for said in everything(report):
        for f in said.findings:
            if f.span.line == line and f.span.column <= column <= f.span.end_column:
                heading = (f.severity or Severity.CAUTION).heading
                why = rule_help(f.rule)
                text = f"**{heading[:1].upper()}{heading[1:]}** ({f.rule}, {f.code}): {f.text}"
                source = f"Evidence: {f.evidence.kind.value}, {f.evidence.source}."
                rows.append("\n\n".join((text, source, why.text if why is not None else "")).strip())
    return tuple(dict.fromkeys(rows))


# --- completion ------------------------------------------------------------------------------------------


def completion(found: Completion, there: Places, line: int, column: int) -> types.CompletionList:
    """Offers in their order. Each keeps what is typed as the text to be compared with: it fits, by one of its names
    or another, and with the next letter the server is asked again."""
    start = there.position(line, found.start)
    where = types.Range(start, there.position(line, column))
    text = there.lines[line - 1] if 1 <= line <= len(there.lines) else ""
    typed = re.sub(r"[\ud800-\udfff]", " ", text[found.start - 1 : column - 1])
    items = [
        types.CompletionItem(
            label=offer.word,
            label_details=types.CompletionItemLabelDetails(description=offer.said) if offer.said else None,
            kind=_COMPLETED[offer.kind],
            detail=f"{offer.help} (“{offer.said}”)" if offer.said else offer.help,
            filter_text=typed or None,
            sort_text=f"{number:05}",
            text_edit=types.TextEdit(where, offer.insert),
            data={"kind": offer.kind, "word": offer.word},
        )
        for number, offer in enumerate(found.offers)
    ]
    return types.CompletionList(is_incomplete=True, items=items)


def documented(item: types.CompletionItem) -> types.CompletionItem:
    """An offer with the text that explains it, if there is one."""
    data = item.data if isinstance(item.data, dict) else {}
    word = str(data.get("word", "")).rpartition(" ")[2]
    found = technique_help(word) or instrument_help(word) or rule_help(word)
    if found is not None and data.get("kind") in ("technique", "instrument", "rule", "line"):
        item.documentation = types.MarkupContent(types.MarkupKind.Markdown, f"**{found.title}**\n\n{found.text}")
    return item


# --- ways out --------------------------------------------------------------------------------------------


def edits(made: tuple[TextChange, ...], there: Places, eol: str) -> list[types.TextEdit]:
    """Changes as the protocol has them."""
    return [types.TextEdit(there.span(one.span), one.text.replace("\n", eol)) for one in made]


def way_out(suggestion: Suggestion, there: Places) -> tuple[str, tuple[TextChange, ...]] | None:
    """What a suggestion is called, and its changes; None if it is for another text."""
    made = changes(there.lines, suggestion.edits)
    if made is None:
        return None
    music = ", changes the music" if suggestion.changes_music else ""
    return f"{suggestion.in_words} ({suggestion.verdict.words}{music})", made


# --- the outline -----------------------------------------------------------------------------------------


def symbol(block: Outlined, there: Places) -> types.DocumentSymbol:
    """A block, named by its name or, while it has none, by its kind."""
    last = there.position(block.last_line, len(there.lines[block.last_line - 1]) + 1)
    heading = there.span(block.span)
    return types.DocumentSymbol(
        name=block.name or block.kind,
        detail=block.title or block.kind,
        kind=_SYMBOLS[block.kind],
        range=types.Range(heading.start, last if block.last_line > block.span.line else heading.end),
        selection_range=there.span(block.name_span),
    )
