"""The record of a delivery, beside its file: numbers to keep, what the music was, and which files were made.

It is a text to be read, kept under version control and merged by hand, so only what it means is checked when it is
read, not whether it is as we wrote it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field, replace
from pathlib import Path
from typing import Any

from gesturesmith.dispatch.changes import FileChanges, MusicState
from gesturesmith.instruments.profile.file import ProfileError, parse
from gesturesmith.instruments.profile.values import Table
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.textfile import UnreadableFile, read_bytes
from gesturesmith.values import frozen

MARK = "delivered"
_HEAD = """\
# What was delivered last, written by `gesturesmith deliver`: keep it with the delivery file, under version control.
# The numbers of notes pages stay as they are here; what is new gets new ones.
"""


@frozen(kw_only=True)
class DeliveryRecord:
    """What was delivered.

    label    version and date in words, "" for none
    since    the label of the delivery before
    numbers  of each notes page, by the name of its work or file
    last     the highest of each in the delivery before
    music    what its files were, by name
    before   what they were in the delivery before, with which changes are compared; None if there was none
    files    delivered files by their path below the output folder, each with the file it is from; also those of
             earlier deliveries that are still there
    """

    label: str = ""
    since: str = ""
    numbers: Mapping[str, PinnedNumbers] = field(default_factory=dict)
    last: Mapping[str, int] = field(default_factory=dict)
    music: MusicState = field(default_factory=dict)
    before: MusicState | None = None
    files: Mapping[str, str] = field(default_factory=dict)

    def next(self, label: str, music: MusicState) -> DeliveryRecord:
        """The record of a delivery after this one, without its files. With the same version and date, or without
        any as long as nothing changes, it is the same delivery made again: its changes stay those since the one
        before."""
        again = label == self.label and (bool(label) or music == self.music)
        if not self.music or again:
            return replace(self, label=label, music=music)
        last = {of: pinned.last for of, pinned in self.numbers.items()}
        return replace(self, label=label, since=self.label, last=last, music=music, before=self.music)

    def renamed(self, changes: Iterable[FileChanges]) -> DeliveryRecord:
        """The record with the numbers of gestures under their new names."""
        names = {
            f"{one.name}: {old.partition(' ')[2]}": f"{one.name}: {new.partition(' ')[2]}"
            for one in changes
            for old, new in one.renamed
        }

        def moved(pinned: PinnedNumbers) -> PinnedNumbers:
            return replace(pinned, gestures=tuple((names.get(name, name), n) for name, n in pinned.gestures))

        return replace(self, numbers={of: moved(pinned) for of, pinned in self.numbers.items()})


def place_of(delivery: Path) -> Path:
    """The record of a delivery file."""
    return delivery.with_name(f"{delivery.name.removesuffix('.toml')}.delivered.toml")


def load(place: Path) -> DeliveryRecord | str:
    """The record, an empty one if there is none, or what is wrong with it."""
    if not place.exists() and not place.is_symlink():
        return DeliveryRecord()
    data = read_bytes(str(place))
    if isinstance(data, UnreadableFile):
        return data.message
    parsed = parse(data, MARK, "not the record of a delivery: one begins")
    if isinstance(parsed, ProfileError):
        return parsed.message
    values, lines = parsed
    errors: list[ProfileError] = []
    top = Table(values, (), lines, errors)
    top.known((MARK, "label", "since", "last", "techniques", "gestures", "music", "before", "files"))
    top.whole(MARK, None, 1, 1)
    techniques = {of: _numbers(table) for of, table in _tables(top, "techniques")}
    gestures = {of: _numbers(table) for of, table in _tables(top, "gestures")}
    both = dict.fromkeys((*techniques, *gestures))
    numbers = {of: PinnedNumbers(techniques=techniques.get(of, ()), gestures=gestures.get(of, ())) for of in both}
    record = DeliveryRecord(
        label=top.text("label", ""),
        since=top.text("since", ""),
        numbers=numbers,
        last={of: number for of, number in _numbers(top.table("last")) if of in numbers},
        music={of: _words(table) for of, table in _tables(top, "music")},
        before={of: _words(table) for of, table in _tables(top, "before")} if "before" in values else None,
        files=_words(top.table("files")),
    )
    for of, pinned in record.numbers.items():
        _each_once(top, of, pinned)
    return record if not errors else min(errors, key=lambda e: e.line).message


def _tables(top: Table, key: str) -> Iterator[tuple[str, Table]]:
    above = top.table(key)
    yield from ((name, above.table(name)) for name in above.values)


def _numbers(table: Table) -> tuple[tuple[str, int], ...]:
    return tuple((key, table.whole(key, None, 1, 100_000)) for key in table.values)


def _words(table: Table) -> dict[str, str]:
    found = {key: value for key, value in table.values.items() if isinstance(value, str)}
    for key in table.values.keys() - found.keys():
        table.error(key, "this is a text")
    return found


def _each_once(top: Table, of: str, pinned: PinnedNumbers) -> None:
    """Each technique has a number of its own, which no gesture shares."""
    seen: dict[int, str] = {}
    for name, number in pinned.techniques:
        other = seen.setdefault(number, name)
        if other != name:
            top.error("techniques", f"{of}: {other} and {name} have the same number {number}", "one number each")
    for name, number in pinned.gestures:
        if number in seen:
            top.error("gestures", f"{of}: {name} has the number {number} of {seen[number]}", "one number each")


def text_of(record: DeliveryRecord) -> str:
    """The record as its file has it."""
    numbers = sorted(record.numbers.items())
    tables: dict[str, Mapping[str, Any]] = {
        **{f"techniques.{_key(of)}": dict(pinned.techniques) for of, pinned in numbers},
        **{f"gestures.{_key(of)}": dict(pinned.gestures) for of, pinned in numbers},
        **{f"music.{_key(of)}": blocks for of, blocks in sorted(record.music.items())},
    }
    if record.before is not None:
        tables["before"] = {}
        tables |= {f"before.{_key(of)}": blocks for of, blocks in sorted(record.before.items())}
    tables["last"] = dict(sorted(record.last.items()))
    tables["files"] = dict(sorted(record.files.items()))
    lines = [_HEAD, f"{MARK} = 1", f"label = {_text(record.label)}", f"since = {_text(record.since)}"]
    for name, values in tables.items():
        if values or name == "before":
            lines += ["", f"[{name}]", *(f"{_key(key)} = {_value(value)}" for key, value in values.items())]
    return "\n".join(lines) + "\n"


def _value(value: str | int) -> str:
    return str(value) if isinstance(value, int) else _text(value)


def _key(text: str) -> str:
    return _text(text)


def _text(text: str) -> str:
    """A text in quotes; TOML's escapes are those of JSON, and DEL needs one too."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def merged(one: PinnedNumbers, other: PinnedNumbers) -> PinnedNumbers:
    """The numbers of several pages with the same numbering: papers and languages of one work."""
    return PinnedNumbers(
        techniques=tuple((dict(one.techniques) | dict(other.techniques)).items()),
        gestures=tuple((dict(one.gestures) | dict(other.gestures)).items()),
    )


__all__ = ["NOTHING_PINNED", "DeliveryRecord", "MusicState", "load", "merged", "place_of", "text_of"]
