"""The LilyPonds of this machine: what is sent out has to work on all of them."""

from __future__ import annotations

import shutil
from pathlib import Path

from gesturesmith.lilypond import LilyPond, find

_FOUND = find()

# The one we find, and one that is installed besides.
PROGRAMS = sorted(
    {
        *((_FOUND.path,) if isinstance(_FOUND, LilyPond) else ()),
        *(Path(p) for p in (shutil.which("lilypond"),) if p),
    }
)
