"""What sounds: from a gesture or passage and the way it is played to tones in seconds and sounding cents.

Below engraving, beside it in what it reads: nothing of notation is needed to be heard, nothing of sound to be
printed.
"""

from __future__ import annotations

from gesturesmith.tones.perform import perform, perform_passage
from gesturesmith.tones.types import Curve, Fermata, Performance, Roll, Tone, Wave

__all__ = ["Curve", "Fermata", "Performance", "Roll", "Tone", "Wave", "perform", "perform_passage"]
