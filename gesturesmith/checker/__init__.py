"""A whole file checked: what is said of its gestures, passages and exercises, and what may be engraved."""

from gesturesmith.checker.file import Checked, check, check_text

__all__ = ["Checked", "check", "check_text"]
