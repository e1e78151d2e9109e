"""How much is tried: samples in `make test`, everything in `make test-all`, and in `make soak` what takes hours."""

from __future__ import annotations

import os
from collections.abc import Sequence

import pytest

SOAK = bool(os.environ.get("GESTURESMITH_SOAK"))
WHOLE = SOAK or bool(os.environ.get("GESTURESMITH_WHOLE"))

# A test that `make test` leaves out; `conftest.py` does so.
whole = pytest.mark.whole


def sample[Case](cases: Sequence[Case], every: int) -> Sequence[Case]:
    """All cases, or in `make test` one of so many, the first among them."""
    return cases if WHOLE else cases[::every]


def count(sampled: int, whole: int, soak: int | None = None) -> int:
    """How many cases to make up."""
    return soak if SOAK and soak is not None else whole if WHOLE else sampled
