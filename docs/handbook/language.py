"""The language page's tables of keys, lines and techniques, from the code that reads them."""

from __future__ import annotations

from collections.abc import Callable

from gesturesmith import techniques
from gesturesmith.lang import meanings, words
from gesturesmith.lang.keys import BOX, EXERCISES, GESTURE, PART, PASSAGE, SETTINGS, Key
from gesturesmith.techniques.base import LAYERS, Technique
from handbook.markdown import table
from handbook.techniques import LAYER_TITLES


def _keys(keys: dict[str, Key]) -> str:
    return table(
        ("key", "value", "when missing"),
        [(f"`{name}`", key.value, key.missing) for name, key in keys.items() if "." not in name],
    )


def _lines() -> str:
    rows = [(f"`{sign}`", words.LINE_MEANINGS[kind]) for kind, sign in words.SIGNS.items()]
    return table(("written", "engraved as"), rows)


def _forms(forms: tuple[meanings.Form, ...], head: str) -> str:
    return table((head, "means"), [(form.written, form.means) for form in forms])


def _techniques() -> str:
    found = [techniques.get(name) for name in techniques.names()]
    rows = [(LAYER_TITLES[layer], "; ".join(_named(t) for t in found if t.layer == layer)) for layer in LAYERS]
    return table(("layer", "names"), rows)


def _named(technique: Technique) -> str:
    """The key of a technique, with its title if that says more."""
    title = technique.title["en"].lower()
    return f"`{technique.key}`" + (f" {title}" if title.replace(" ", "-") != technique.key else "")


REGIONS: dict[str, Callable[[], str]] = {
    "settings": lambda: _keys(SETTINGS),
    "gesture": lambda: _keys(GESTURE),
    "passage": lambda: _keys(PASSAGE),
    "box": lambda: _keys(BOX),
    "part": lambda: _keys(PART),
    "exercises": lambda: _keys(EXERCISES),
    "points": lambda: _forms(meanings.POINTS, "written"),
    "entries": lambda: _forms(meanings.ENTRIES, "entry"),
    "lines": _lines,
    "techniques": _techniques,
}
