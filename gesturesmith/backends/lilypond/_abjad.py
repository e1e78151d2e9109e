"""Imports Abjad without letting it touch the user's home folder.

When imported, Abjad creates a settings folder in the home folder, and complains at length if it cannot.
"""

from __future__ import annotations

import os
import tempfile

from gesturesmith import paths

__all__ = ["abjad"]

_home = os.environ.get("HOME")
with tempfile.TemporaryDirectory(prefix="gesturesmith-", dir=paths.temporary()) as _elsewhere:
    os.environ["HOME"] = _elsewhere
    try:
        import abjad
    finally:
        if _home is None:
            del os.environ["HOME"]
        else:
            os.environ["HOME"] = _home
