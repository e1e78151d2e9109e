"""`--wording` and `--paper`, the same for every command: they replace the settings of files."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

import click

from gesturesmith.cli.console import clean, say
from gesturesmith.cli.status import Status
from gesturesmith.model.looks import AS_WRITTEN, PageLook
from gesturesmith.source import Source

_NAMED = 5  # gestures of one file
_IN_A_LANGUAGE = re.compile(r"^[^\S\n]*\w+\.\w", re.MULTILINE)  # a key such as `footnote.de`


def _checked(context: click.Context, option: click.Parameter, value: str | None) -> str:
    """A value as a file would give it."""
    if value is None:
        return ""
    key = str(option.name)
    problem = replace(AS_WRITTEN, **{key: value}).problem(key) if value.strip() else f"`{key}` has no value"
    if problem:
        raise click.BadParameter(clean(problem), context, option)
    return value.strip()


_OPTIONS = (
    click.option(
        "--wording",
        callback=_checked,
        metavar="LANGUAGES",
        help="Language of the pages: en, de, fr, it, or two separated by a comma; replaces that of the files.",
    ),
    click.option(
        "--paper",
        callback=_checked,
        metavar="PAPER",
        help="a4, letter, or such as '230 x 310 mm'; replaces that of the files.",
    ),
)


def tell_untranslated(read: Iterable[tuple[Source, PageLook]]) -> None:
    """Name the composer's texts that the files lack in a language of the pages made of them."""
    read = [(source, look) for source, look in read if _of_languages(source, look)]
    if not read:  # a run that finds everything made reads no file
        return
    from gesturesmith.lang import parse
    from gesturesmith.lang.meanings import WORDINGS
    from gesturesmith.model.translations import untranslated

    found: dict[tuple[str, str], dict[str, dict[str, None]]] = {}
    for source, look in read:
        for language, gesture, key in untranslated(look.on(parse(source)[0])):
            found.setdefault((source.name, language), {}).setdefault(gesture, {})[key] = None
    told: dict[tuple[str, str], list[str]] = {}  # the languages that lack the same texts of a file
    for (name, language), gestures in found.items():
        missing = [f"{gesture} ({', '.join(keys)})" for gesture, keys in gestures.items()]
        more = [f"{len(missing) - _NAMED} more"] if len(missing) > _NAMED else []
        told.setdefault((name, ", ".join((*missing[:_NAMED], *more))), []).append(WORDINGS[language])
    for (name, texts), languages in told.items():
        say(clean(f"{name}: no text in {' and '.join(languages)}: {texts}"))


def _of_languages(source: Source, look: PageLook) -> bool:
    """Whether the pages are in another language than the texts, or texts name theirs: else none can be lacking."""
    return bool(look.wording) or "wording" in source.text or _IN_A_LANGUAGE.search(source.text) is not None


def look_options[**P](command: Callable[P, Status]) -> Callable[..., Status]:
    """Give a command the options of `PageLook`, as one argument `look`."""

    @functools.wraps(command)
    def called(*arguments: Any, wording: str, paper: str, **more: Any) -> Status:
        more["look"] = PageLook(wording=wording, paper=paper)
        return command(*arguments, **more)

    for option in reversed(_OPTIONS):
        called = option(called)
    return called
