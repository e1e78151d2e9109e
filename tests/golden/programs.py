"""The LilyPonds of this machine: our files have to work with all of them."""

from __future__ import annotations

import shutil
from pathlib import Path

from gesturesmith.lilypond import LilyPond, find

_FOUND = find()

# The one we use, and another that is installed.
PROGRAMS = list(
    dict.fromkeys(
        (
            *((_FOUND.path,) if isinstance(_FOUND, LilyPond) else ()),
            *(Path(p) for p in (shutil.which("lilypond"),) if p),
        )
    )
)
