"""The natural horn in E."""

from __future__ import annotations

from gesturesmith.instruments._natural import crook

INSTRUMENT = crook("natural-horn-e", "E", -5, -8, de="E", fr="mi", it="mi")
