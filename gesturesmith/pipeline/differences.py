"""Signs that the files of a run use differently."""

from __future__ import annotations

from collections.abc import Iterable

from gesturesmith.pipeline.types import SignUsage


def differences(ways: Iterable[SignUsage]) -> tuple[str, ...]:
    """Signs that files use differently, each with the files by name; `ways` of all of them, in order."""
    by_sign: dict[tuple[str, bool], dict[str, list[str]]] = {}
    for one in ways:
        kind = one.way.startswith("noteheads ")
        by_sign.setdefault((one.sign, kind), {}).setdefault(one.way, []).append(one.file)
    return tuple(
        f"{sign}: {'; '.join(f'{_files(files)}: {way}' for way, files in found.items())}"
        for (sign, _), found in by_sign.items()
        if len(found) > 1
    )


def _files(names: list[str]) -> str:
    some = list(dict.fromkeys(names))
    return ", ".join(some) if len(some) <= 2 else f"{some[0]} and {len(some) - 1} others"
