"""The texts used in the library's examples, as in docs/library.md."""

from __future__ import annotations

HEAD = "instrument: horn\npitches: written\n"
CALL = f"""{HEAD}
gesture call
  technique: half-valve
  contour: xG4 ~~ xD5@2
  lasts: 4 beats
"""
HIGH = f"{HEAD}\ngesture beyond\n  contour: G6\n"
