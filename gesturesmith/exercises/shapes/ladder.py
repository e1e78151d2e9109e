"""A scale of an octave with a turn at its top."""

from gesturesmith.exercises.shapes.base import phrase

SHAPE = phrase("0:1 1:1 2:1 3:1 | 4:1 5:1 6:1 7:1 | 8:1 6:1 7:2 | 4:2 0:2")
