"""Octaves, a step apart."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:2 7:2 | 1:2 8:2 | 2:2 9:2 | 7:2 0:2")
