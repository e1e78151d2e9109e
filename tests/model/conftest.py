"""Files of one or more gestures, read by the real reader."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from gesturesmith.diagnostics import ReadError
from gesturesmith.lang import parse
from gesturesmith.model.gesture import Gesture
from gesturesmith.model.piece import Piece
from gesturesmith.model.resolve import resolve
from gesturesmith.source import Source

TOP = "instrument: horn\npitches: written\n"


def _resolved(text: str) -> tuple[Piece | None, tuple[ReadError, ...]]:
    tree, errors = parse(Source("test.gesture", text))
    assert errors == (), "the reader already complains"
    return resolve(tree)


@pytest.fixture
def resolved() -> Callable[[str], tuple[Piece | None, tuple[ReadError, ...]]]:
    """The piece of a text, and the errors of its meaning."""
    return _resolved


@pytest.fixture
def piece() -> Callable[..., Piece]:
    """The piece of blocks in a file for horn, without any error."""

    def make(blocks: str, top: str = TOP) -> Piece:
        found, errors = _resolved(top + blocks)
        assert errors == ()
        assert found is not None
        return found

    return make


@pytest.fixture
def gesture(piece: Callable[..., Piece]) -> Callable[..., Gesture]:
    """The gesture with these lines in its block."""

    def make(*lines: str, top: str = TOP) -> Gesture:
        return piece("gesture a\n" + "".join(f"  {line}\n" for line in lines), top).gestures[0]

    return make
