"""A fragment of a scale, up slowly and down again."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:2 1:2 | 2:2 3:2 | 4:1 3:1 2:1 1:1 | 0:4")
