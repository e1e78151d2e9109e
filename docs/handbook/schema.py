"""Output for programs: the JSON Schemas of the package as tables."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import gesturesmith
from handbook.markdown import table

FOLDER = Path(gesturesmith.__file__).parent / "schemas"
_BOUNDS = {"minimum": "at least", "maximum": "at most", "minItems": "at least", "maxItems": "at most"}


def names() -> tuple[str, ...]:
    """All schemas, the report of a check first."""
    return tuple(sorted((path.stem for path in FOLDER.glob("*.json")), key=lambda name: (name != "report", name)))


def _kind(schema: dict[str, Any]) -> str:
    """The type of a value, in words."""
    if "$ref" in schema:
        name = schema["$ref"].rsplit("/", 1)[1]
        return f"[{name}](#{name})"
    if "enum" in schema:
        return ", ".join(f"`{json.dumps(value)}`" for value in schema["enum"])
    if "const" in schema:
        return f"`{json.dumps(schema['const'])}`"
    if "oneOf" in schema:
        return " or ".join(_kind(one) for one in schema["oneOf"])
    given = schema.get("type", "anything")
    words = " or ".join(given) if isinstance(given, list) else given
    if given == "array" and "items" in schema:
        words = f"array of {_kind(schema['items'])}"
    bounds = [f"{word} {schema[key]}" for key, word in _BOUNDS.items() if key in schema]
    if given == "object" and "properties" in schema:
        words += " of " + ", ".join(f"`{name}`: {_kind(one)}" for name, one in schema["properties"].items())
    return f"{words}, {' and '.join(bounds)}" if bounds else words


def _properties(schema: dict[str, Any]) -> str:
    required = schema.get("required", ())
    rows = [
        (f"`{name}`", _kind(one), one.get("description", ""), "" if name in required else "may be left out")
        for name, one in schema["properties"].items()
    ]
    return table(("key", "value", "meaning", ""), rows)


def _section(name: str, schema: dict[str, Any], prefix: str) -> str:
    parts = [f"({prefix}-{name})=\n### {name}", schema.get("description", "")]
    parts.append(_properties(schema) if "properties" in schema else f"Value: {_kind(schema)}.")
    return "\n\n".join(part for part in parts if part)


def schema_section(name: str) -> str:
    """One schema: the output it describes, then every kind of object in it."""
    schema = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    parts = [
        f"## {schema['title']}",
        schema["description"],
        f"The schema itself: [{name}.json](schemas/{name}.json).",
        _properties(schema) if "properties" in schema else f"Value: {_kind(schema)}.",
        *(_section(kind, one, name) for kind, one in schema.get("$defs", {}).items()),
    ]
    return "\n\n".join(parts).replace("](#", f"](#{name}-")
