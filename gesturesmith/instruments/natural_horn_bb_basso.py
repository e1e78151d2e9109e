"""The natural horn in B-flat basso."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook(
    "natural-horn-bb-basso", "B-flat basso", -8, -14, de="tief B", fr="si bémol grave", it="si bemolle basso"
)
