"""What can be wrong with a line: a stable code and a readable rule name for each kind of mistake.

A code never changes and is never reused. The sentences are written where the mistake is found, since they quote
the composer.
"""

from __future__ import annotations

RULES: dict[str, str] = {
    "unknown-key": "GS101",
    "misplaced-key": "GS102",
    "repeated-key": "GS103",
    "missing-colon": "GS104",
    "empty-value": "GS105",
    "not-a-key": "GS106",
    "unknown-block": "GS107",
    "missing-name": "GS108",
    "bad-name": "GS109",
    "reserved-name": "GS110",
    "repeated-name": "GS111",
    "bad-heading": "GS112",
    "mixed-indentation": "GS113",
    "wrong-indentation": "GS114",
    "comment-spacing": "GS115",
    "unclosed-text": "GS116",
    "text-needs-quotes": "GS117",
    "unexpected-sign": "GS118",
    "control-character": "GS119",
    "unreadable-file": "GS120",
    "too-many-errors": "GS121",
    "too-much": "GS122",
    "bad-number": "GS123",
    "zero-divisor": "GS124",
    "out-of-range": "GS125",
    "bad-meter": "GS126",
    "missing-unit": "GS127",
    "unknown-unit": "GS128",
    "unknown-word": "GS129",
    "bad-note": "GS130",
    "lower-case-note": "GS131",
    "note-h": "GS132",
    "quarter-after-double": "GS133",
    "accidental-order": "GS134",
    "cents-without-c": "GS135",
    "octave-range": "GS136",
    "x-before-height": "GS137",
    "cents-on-x": "GS138",
    "two-lines": "GS139",
    "line-at-silence": "GS140",
    "loose-line": "GS141",
    "missing-line": "GS142",
    "said-twice": "GS143",
    "bad-place": "GS144",
    "bad-band": "GS145",
    "bad-list": "GS146",
    "incomplete": "GS147",
    "bad-fingering": "GS148",
    "bad-item": "GS149",
    "bad-grace": "GS080",
    "bad-change": "GS063",
    "bad-key": "GS064",
    "unknown-part": "GS020",
}


def listed(words: tuple[str, ...], last: str = "or") -> str:
    """`a`, `b` or `c`: words listed as in a sentence."""
    quoted = [f"`{w}`" for w in words]
    if len(quoted) < 2:
        return "".join(quoted)
    return f"{', '.join(quoted[:-1])} {last} {quoted[-1]}"


def short(text: str) -> str:
    """What the composer wrote, without quotes, cut to fit a sentence."""
    return shown(text)[1:-1]


def shown(text: str) -> str:
    """What the composer wrote, cut to fit a sentence, without unprintable characters."""
    plain = "".join(c if c.isprintable() else "\ufffd" for c in text[:41])
    return f"`{plain[:38]}…`" if len(plain) > 40 else f"`{plain}`"
