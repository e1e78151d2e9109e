"""Findings on a passage because of a gesture it plays."""

from collections.abc import Iterable, Iterator

from gesturesmith.diagnostics import Finding
from gesturesmith.model.piece import Passage


def played(
    passage: Passage, found: Iterable[Finding | None], what: str, *, once: bool = False
) -> Iterator[Finding]:
    """A finding for each gesture of the passage that has one: at each place, or `once` for all.

    found   of each item, in order
    what    the consequence, as a clause about the gesture: "which is not as written"
    """
    said = set()
    for item, one in zip(passage.items, found, strict=False):
        place = (None if once else item.span, item.played)
        if one is None or not item.played or place in said:
            continue
        said.add(place)
        where = f", {one.where}" if one.where else ""
        yield Finding(
            span=item.span,
            where=item.played,
            text=f"plays {item.played}, {what}{where}: {one.text} ({one.rule})",
            evidence=one.evidence,
        )
