"""The notes of a chord."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:2 2:2 | 4:2 2:2 | 0:1 2:1 4:1 2:1 | 0:4")
