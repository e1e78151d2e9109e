"""Access to frozen mappings, for tests with limits that no instrument has."""

from __future__ import annotations

import gc
from collections.abc import Mapping


def inside(mapping: Mapping) -> dict:
    """The dictionary behind a frozen mapping."""
    (held,) = gc.get_referents(mapping)
    return held
