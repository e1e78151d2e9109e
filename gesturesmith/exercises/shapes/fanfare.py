"""A fanfare on the notes of a chord."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 0:1 2:2 | 4:1 4:1 2:2 | 0:1 2:1 4:1 2:1 | 0:4")
