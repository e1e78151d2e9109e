"""The natural horn in B-flat alto."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook(
    "natural-horn-bb-alto", "B-flat alto", -1, -2, de="hoch B", fr="si bémol aigu", it="si bemolle alto"
)
