"""The checker: how the instrument plays a gesture, what stands against it, and what would work."""

from gesturesmith.check.realise import realise
from gesturesmith.check.whole import Checked, check

__all__ = ["Checked", "check", "realise"]
