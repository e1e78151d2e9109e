"""What changed between two deliveries: the composer's own changes, in the files as they would be formatted."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from itertools import takewhile

from gesturesmith.lang.format import format_text
from gesturesmith.lang.parse import parse
from gesturesmith.source import Source
from gesturesmith.values import frozen

_TEXT_OR_COMMENT = re.compile(r'"(?:\\.|[^"\\])*"|(?:^|  )#.*')
# By file, the hash of each of its blocks, `gesture NAME`, and of its settings, `tempo`.
type MusicState = Mapping[str, Mapping[str, str]]

_UNREAD = "the file"  # the only entry of a file that cannot be read


@frozen(kw_only=True)
class FileChanges:
    """What changed in one file.

    name      of the file
    is_new, is_gone   the whole file
    changed, new, gone   blocks, `gesture NAME`, and settings, `tempo`
    renamed   blocks that are the same under another name: old and new
    """

    name: str
    is_new: bool = False
    is_gone: bool = False
    changed: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    renamed: tuple[tuple[str, str], ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """In words, a line for each kind of change."""
        if self.is_new or self.is_gone:
            return (f"{self.name}: {'new' if self.is_new else 'gone'}",)
        kinds = (("changed", self.changed), ("new", self.new), ("gone", self.gone))
        told = [f"{what}: {', '.join(names)}" for what, names in kinds if names]
        told += [f"renamed: {old} is now {new.partition(' ')[2]}" for old, new in self.renamed]
        return (f"{self.name}:", *(f"  {line}" for line in told))


def state_of(source: Source) -> Mapping[str, str]:
    """The hash of each block and setting of a file; spaces, comments and the order of blocks make no difference."""
    if parse(source)[1]:
        return {_UNREAD: _digest(source.text)}
    written = Source(source.name, format_text(source))
    tree, _ = parse(written)
    lines = written.lines
    found = {e.key.text: _digest(_plain(_setting(lines, e.key.span.line))) for e in tree.settings}
    for block in tree.blocks:
        title = block.title.text if block.title is not None else ""
        inside = _plain(lines[block.span.line : block.last_line])
        found[f"{block.kind} {block.name.text}"] = f"{_digest(inside)} {_digest(title)[:4]}"
    return found


def _setting(lines: tuple[str, ...], line: int) -> tuple[str, ...]:
    """The lines of a setting: its value may go on below it, indented."""
    more = takewhile(lambda text: text[:1] == " ", lines[line:])
    return (lines[line - 1], *more)


def changes(before: MusicState, now: MusicState) -> tuple[FileChanges, ...]:
    """The files that differ, by name."""
    return tuple(_found(before, now))


def _found(before: MusicState, now: MusicState) -> Iterator[FileChanges]:
    for name in sorted({*before, *now}):
        if name not in before or name not in now:
            yield FileChanges(name=name, is_new=name in now, is_gone=name in before)
        elif before[name] != now[name]:
            yield _within(name, before[name], now[name])


def _within(name: str, was: Mapping[str, str], now: Mapping[str, str]) -> FileChanges:
    gone = [key for key in was if key not in now]
    new = [key for key in now if key not in was]
    renamed = []
    for old in tuple(gone):
        # What has a new name usually has a new title as well.
        inside = was[old].partition(" ")[0]
        alike = (key for key in new if now[key].partition(" ")[0] == inside and _kind(key) == _kind(old) != "")
        same = next(alike, None)
        if same is not None:
            renamed.append((old, same))
            gone.remove(old)
            new.remove(same)
    return FileChanges(
        name=name,
        changed=tuple(key for key in now if key in was and was[key] != now[key]),
        new=tuple(new),
        gone=tuple(gone),
        renamed=tuple(renamed),
    )


def _kind(key: str) -> str:
    """The kind of a block; "" for a setting."""
    kind, space, _ = key.partition(" ")
    return kind if space else ""


def _plain(lines: tuple[str, ...]) -> str:
    """Lines without comments and empty ones."""
    found = (_TEXT_OR_COMMENT.sub(lambda m: m[0] if m[0][0] == '"' else "", line).strip() for line in lines)
    return "\n".join(line for line in found if line)


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:12]
