"""Two versions of a text joined, where they change different lines of what both began with."""

from __future__ import annotations

from difflib import SequenceMatcher

from gesturesmith.values import frozen


@frozen
class _Replacement:
    """Lines `begins` to `ends` (exclusive, from 0) of the base become `rows`."""

    begins: int
    ends: int
    rows: tuple[str, ...]


def joined(base: str, mine: str, theirs: str) -> str | None:
    """Both changes together; None if they touch the same lines, or lines next to each other.

    Neighbouring lines count as the same: the two entries of a gesture that somebody moves are one change.

    >>> joined("a\\nb\\nc\\n", "A\\nb\\nc\\n", "a\\nb\\nC\\n")
    'A\\nb\\nC\\n'
    >>> joined("a\\nb\\n", "A\\nb\\n", "a\\nB\\n") is None
    True
    """
    if mine == theirs or base == theirs:
        return mine
    if base == mine:
        return theirs
    old = _rows(base)
    both = sorted(
        {*((c.begins, c.ends, c.rows, 0) for c in _replacements(old, _rows(mine))),
         *((c.begins, c.ends, c.rows, 1) for c in _replacements(old, _rows(theirs)))}
    )  # fmt: skip
    made: list[str] = []
    done = 0
    last: tuple[int, int, tuple[str, ...], int] | None = None
    for change in both:
        begins, ends, rows, side = change
        if last is not None and last[3] != side and begins <= last[1]:
            if change[:3] == last[:3]:  # both made the same change
                continue
            return None
        made += [*old[done:begins], *rows]
        done, last = ends, change
    return "".join([*made, *old[done:]])


def _rows(text: str) -> list[str]:
    """The lines with their ends; only line feeds end lines."""
    parts = text.split("\n")
    return [*(f"{part}\n" for part in parts[:-1]), *([parts[-1]] if parts[-1] else [])]


def _replacements(old: list[str], new: list[str]) -> list[_Replacement]:
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    return [
        _Replacement(i1, i2, tuple(new[j1:j2])) for op, i1, i2, j1, j2 in matcher.get_opcodes() if op != "equal"
    ]
