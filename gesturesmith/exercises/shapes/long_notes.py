"""Long notes, a step apart."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:4 | 1:4 | 2:4 | 0:4")
