"""The text of a window checked as it is typed: at once what is at the cursor, then everything with suggestions."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from gesturesmith.checker import Checked, check
from gesturesmith.diagnostics import FileReport
from gesturesmith.editing.outline import Outlined, block_at
from gesturesmith.lang import parse
from gesturesmith.lang.nodes import File
from gesturesmith.model.parts import has_parts
from gesturesmith.model.reading import read_tree
from gesturesmith.source import Source, folded
from gesturesmith.values import frozen


@frozen(kw_only=True)
class CheckedText:
    """A text with what is known of it.

    here      the block at the cursor
    checked   of this text, at least as far as that block
    report    on the whole text; on other blocks, that of the text before
    whole     whether everything was checked, with suggestions
    """

    source: Source
    line: int
    here: Outlined | None
    checked: Checked
    report: FileReport
    whole: bool


def checked_quickly(source: Source, folder: Path, line: int, before: CheckedText | None) -> CheckedText:
    """A text without suggestions. Where only the block at the cursor differs from the text before, no other block
    is checked: it takes the same time in a file of any length.

    line   that of the cursor, from 1
    """
    here = block_at(source, line)
    if before is not None and here is not None and here.kind == "gesture":
        found = _only_here(source, folder, line, here, before)
        if found is not None:
            return found
    tree, errors = parse(source)
    checked = check(read_tree(source, tree, errors, folder=folder), suggestions=False)
    return CheckedText(source=source, line=line, here=here, checked=checked, report=checked.report, whole=False)


def checked_wholly(
    source: Source, folder: Path, line: int, wanted: Callable[[], bool] = lambda: True
) -> CheckedText | None:
    """A text with everything, suggestions too; None if it was given up because it is not `wanted` any more."""
    tree, errors = parse(source)
    checked = check(read_tree(source, tree, errors, folder=folder), wanted=wanted)
    if not wanted():
        return None
    return CheckedText(
        source=source, line=line, here=block_at(source, line), checked=checked, report=checked.report, whole=True
    )


def _only_here(source: Source, folder: Path, line: int, here: Outlined, before: CheckedText) -> CheckedText | None:
    """None where more than this gesture may be different."""
    old, new = before.source.lines, source.lines
    begins, ends = here.span.line, here.last_line
    was = block_at(before.source, line)
    if was is None or (was.name, was.span.line, was.kind) != (here.name, begins, "gesture"):
        return None
    if len(old) != len(new) or old[:begins] != new[:begins] or old[ends:] != new[ends:]:
        return None
    tree, syntax = parse(source)
    block = next((one for one in tree.blocks if one.span.line == begins), None)
    if block is None or has_parts(tree):
        return None
    alone = check(
        read_tree(source, tree, syntax, folder=folder, blocks=File(tree.settings, (block,))), suggestions=False
    )
    own = next((said for said in alone.report.gestures if folded(said.name) == folded(here.name)), None)
    kept = [g for g in before.report.gestures if g.span.line != begins]
    gestures = sorted((*kept, *([own] if own is not None else [])), key=lambda said: said.span.line)
    elsewhere = [e for e in before.report.errors if not begins <= e.span.line <= ends and e not in syntax]
    errors = sorted(dict.fromkeys((*alone.report.errors, *elsewhere)), key=lambda e: (e.span.line, e.span.column))
    unread = tuple(
        dict.fromkeys(
            (*alone.report.unread, *(u for u in before.report.unread if folded(u[0]) != folded(here.name)))
        )
    )
    report = replace(
        before.report,
        source=source,
        readable=not errors,
        errors=tuple(errors),
        gestures=tuple(gestures),
        unread=unread,
    )
    return CheckedText(source=source, line=line, here=here, checked=alone, report=report, whole=False)
