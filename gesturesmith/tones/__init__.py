"""From a gesture or passage, and the way it is played, to tones in seconds and sounding cents.

Independent of engraving, from the same input: sound needs no notation, and print needs no sound.
"""

from __future__ import annotations

from gesturesmith.tones.perform import perform, perform_passage
from gesturesmith.tones.types import Curve, Fermata, Performance, Roll, Tone, Wave

__all__ = ["Curve", "Fermata", "Performance", "Roll", "Tone", "Wave", "perform", "perform_passage"]
