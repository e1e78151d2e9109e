"""The natural horn in E-flat."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-eb", "E-flat", -5, -9, de="Es", fr="mi bémol", it="mi bemolle")
