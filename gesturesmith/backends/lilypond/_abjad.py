"""Abjad, imported so that it leaves the user's home folder alone.

On import Abjad makes a folder of settings in the home folder, and complains at length where it cannot.
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
