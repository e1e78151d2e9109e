"""Names of delivered files, from a pattern such as `{composer}-{title}-{part}`."""

from __future__ import annotations

import re
import unicodedata

from gesturesmith.model.piece import Settings

_FIELD = re.compile(r"\{([^{}]*)\}")
_MAX_BYTES = 120  # well below the 255 of common file systems, leaving room for endings
# Names that Windows reserves for devices, with any ending (Microsoft, "Naming Files, Paths, and Namespaces").
_PORTS = (f"{port}{n}" for port in ("com", "lpt") for n in "0123456789¹²³")
_DEVICES = frozenset(("con", "prn", "aux", "nul", *_PORTS))

_SIGNS = str.maketrans({"♭": "b", "♯": "sharp"})
FIELDS = ("composer", "file", "instrument", "part", "subtitle", "title")


def unknown_fields(pattern: str) -> tuple[str, ...]:
    """The unknown fields of a pattern, including braces that do not form a field."""
    wrong = [name for name in _FIELD.findall(pattern) if name not in FIELDS]
    if re.search(r"[{}]", _FIELD.sub("", pattern)):
        wrong.append("a brace that stands alone")
    return tuple(wrong)


def delivery_name(pattern: str, settings: Settings, stem: str) -> str:
    """The pattern filled in, safe as the name of a file or folder; `stem` if no field has a value.

    Letters of any script are kept, `♭` and `♯` are written out. Spaces become `_`; anything but letters, digits and
    `-_.` is left out, and so is a dash beside an empty field.
    """
    values = {
        "composer": settings.composer or "",
        "file": stem,
        "instrument": settings.instrument.key,
        "part": settings.part or settings.instrument.part_in(settings.wording[0]),
        "subtitle": settings.subtitle or "",
        "title": settings.title or "",
    }
    if not any(values[name] for name in _FIELD.findall(pattern)):
        return stem
    return safe(_FIELD.sub(lambda match: safe(values[match[1]]), pattern)) or stem


def of_instrument(pattern: str | None, settings: Settings) -> str:
    """The start of the name of a page that comes from no file: the instrument's key, or the pattern filled in."""
    key = safe(settings.instrument.key) or "instrument"
    return delivery_name(pattern, settings, key) if pattern is not None else key


def safe(text: str) -> str:
    """A text as the name of a file on any system; may be empty."""
    spaced = re.sub(r"\s+", "_", unicodedata.normalize("NFC", text).translate(_SIGNS).strip())
    kept = "".join(c for c in spaced if c in "-_." or unicodedata.category(c)[0] in "LNM")
    kept = re.sub(r"-{2,}", "-", kept).strip("-_.")
    short = kept.encode()[:_MAX_BYTES].decode("utf-8", "ignore").strip("-_.")
    return file_name(short)


def file_name(name: str) -> str:
    """The file name of a gesture, passage or exercise: not one that Windows reserves for a device.

    No name in the language contains `_`, so that names stay distinct.
    """
    base, dot, ending = name.partition(".")
    return f"{base}_{dot}{ending}" if base.casefold() in _DEVICES else name
