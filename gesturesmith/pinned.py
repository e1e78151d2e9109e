"""Numbers of a notes page that stay as they were delivered."""

from __future__ import annotations

from gesturesmith.values import frozen


@frozen(kw_only=True)
class PinnedNumbers:
    """Numbers that stay from delivery to delivery: of techniques, by key, and of gestures with texts of their own,
    by the name of their file and their own. Numbers of what is no longer there stay taken."""

    techniques: tuple[tuple[str, int], ...] = ()
    gestures: tuple[tuple[str, int], ...] = ()

    @property
    def last(self) -> int:
        """The highest number taken, 0 for none."""
        return max((number for _, number in (*self.techniques, *self.gestures)), default=0)


NOTHING_PINNED = PinnedNumbers()
