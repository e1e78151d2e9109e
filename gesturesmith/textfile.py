"""Reads the user's files: every way in which a file can fail to be text gives a value with a clear message."""

from __future__ import annotations

import errno
import io
import os
import select
import stat
from collections.abc import Callable, Iterator
from unicodedata import normalize

from gesturesmith.diagnostics import FileReport, ReadError
from gesturesmith.source import Source, Span, clean
from gesturesmith.values import frozen

LARGEST_BYTES = 2_000_000  # a gesture takes about 200 bytes: ten thousand of them
_PATIENCE_S = 10.0  # for the writer of a pipe
_MAX_NAMES = 1000  # names in a folder searched for the one that was meant


@frozen(kw_only=True)
class UnreadableFile:
    """A file that could not be read as text."""

    name: str
    code: str
    rule: str
    message: str
    line: int = 1
    column: int = 1

    @property
    def report(self) -> FileReport:
        """The same as a file report, for programs."""
        span = Span(self.line, self.column, self.column + 1)
        error = ReadError(code=self.code, rule=self.rule, span=span, message=self.message)
        return FileReport(source=Source(self.name, ""), readable=False, errors=(error,))


_MACHINE = {
    errno.ENOENT: ("GS190", "no-such-file", "no such file"),
    errno.ENOTDIR: ("GS190", "no-such-file", "no such file"),
    errno.EISDIR: ("GS191", "a-folder", "this is a folder; name the files in it"),
    errno.EACCES: ("GS192", "not-allowed", "permission denied"),
    errno.EPERM: ("GS192", "not-allowed", "permission denied"),
    errno.ENAMETOOLONG: ("GS190", "no-such-file", "no such file: the name is too long"),
    errno.ELOOP: ("GS190", "no-such-file", "no such file: the link leads to itself"),
}


# How files of other kinds begin, and what a musician calls them.
_DOCUMENTS = {
    b"%PDF": "a PDF; gestures are written in a plain text file",
    b"\xd0\xcf\x11\xe0": "a word processor document; save it as plain text (UTF-8)",
    b"PK\x03\x04": "a word processor document or an archive; save the text as plain text (UTF-8)",
    b"<?xml": "XML; `gesturesmith check` and `gesturesmith excerpt` read scores in MusicXML",
    b"{\\rtf": "a word processor document (RTF); save it as plain text (UTF-8)",
}


def read(path: str) -> Source | UnreadableFile:
    """The text of a file, or why it cannot be read. Reads no further than the limit, so it always ends."""
    data = read_bytes(path)
    return data if isinstance(data, UnreadableFile) else text_of(shown_name(path), data)


def shown_name(path: str) -> str:
    """A path without anything that controls a terminal, on one line."""
    return clean(path).replace("\n", "\ufffd")


def read_bytes(path: str, limit: int = LARGEST_BYTES) -> bytes | UnreadableFile:
    """The beginning of a file, up to one byte more than the limit, or why it cannot be read."""
    name = shown_name(path)
    try:
        return bytes_of(path, limit)
    except TimeoutError:
        message = f"this is a pipe, and nothing came out of it for {_PATIENCE_S:g} seconds"
        return UnreadableFile(name=name, code="GS196", rule="cannot-be-read", message=message)
    except OSError as error:
        other = ("GS196", "cannot-be-read", f"this file cannot be read: {os.strerror(error.errno or errno.EIO)}")
        code, rule, message = _MACHINE.get(error.errno or 0, other)
        near = _near(path) if error.errno == errno.ENOENT else ""
        return UnreadableFile(name=name, code=code, rule=rule, message=message + near)
    except ValueError:  # a null byte in the name
        return UnreadableFile(name=name, code="GS190", rule="no-such-file", message="not a valid file name")


def bytes_of(path: str, limit: int = LARGEST_BYTES) -> bytes:
    """The beginning of a file, up to one byte more than the limit.

    OSError from the machine; TimeoutError for a pipe without a writer.
    """
    with open(path, "rb", buffering=0, opener=_opened) as file:
        if os.name != "posix" or not stat.S_ISFIFO(os.fstat(file.fileno()).st_mode):
            return b"".join(_pieces(file, limit))
        waiting = select.poll()
        waiting.register(file.fileno(), select.POLLIN)
        return b"".join(_pieces(file, limit, lambda: bool(waiting.poll(_PATIENCE_S * 1000))))


def _opened(path: str, flags: int) -> int:
    """Open without blocking, as opening a pipe would until there is a writer."""
    handle = os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
    if os.name == "posix" and not stat.S_ISFIFO(os.fstat(handle).st_mode):
        os.set_blocking(handle, True)  # wait for a terminal: somebody is typing
    return handle


def _pieces(file: io.FileIO, limit: int, ready: Callable[[], bool] = lambda: True) -> Iterator[bytes]:
    left = limit + 1
    while left > 0:
        if not ready():
            raise TimeoutError
        piece = file.read(left)
        if not piece:
            return
        left -= len(piece)
        yield piece


def _near(path: str) -> str:
    """A gesture file that may have been meant: its ending omitted, misspelt, or cut off at a space."""
    import shlex
    from difflib import get_close_matches

    if os.path.islink(path):
        return f": it is a link to {shlex.quote(clean(os.readlink(path)).replace(chr(10), chr(0xFFFD)))}"
    folder, name = os.path.split(path)
    try:
        there = sorted(n for n in os.listdir(folder or ".") if n.endswith(".gesture") and not n.startswith("."))
    except OSError:
        return ""
    stems = {_plain(n): n for n in there[:_MAX_NAMES]}
    wanted = _plain(name)
    cut = [s for s in stems if s.startswith(f"{wanted} ")]
    found = [wanted] if wanted in stems else cut or get_close_matches(wanted, stems, n=1)
    meant = os.path.join(folder, stems[found[0]]) if found else ""
    return f"; did you mean {shlex.quote(clean(meant).replace(chr(10), chr(0xFFFD)))}?" if meant else ""


def _plain(name: str) -> str:
    return normalize("NFC", name.removesuffix(".gesture")).casefold()


def text_of(name: str, data: bytes) -> Source | UnreadableFile:
    """The text in the bytes of a file, or why they are not text."""
    if len(data) > LARGEST_BYTES:
        message = "this file is larger than 2 MB, the limit; divide it into several files"
        return UnreadableFile(name=name, code="GS193", rule="file-too-large", message=message)
    if document := next((what for head, what in _DOCUMENTS.items() if data.startswith(head)), ""):
        message = f"this is not a text file but {document}"
        return UnreadableFile(name=name, code="GS194", rule="not-a-text-file", message=message)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        message = "this file is UTF-16; save it as UTF-8"
        return UnreadableFile(name=name, code="GS195", rule="not-utf-8", message=message)
    if (zero := data.find(b"\0")) >= 0:
        line, column = _place(data, zero)
        message = f"this is not a text file (line {line} has a byte that no text has)"
        return UnreadableFile(
            name=name, code="GS194", rule="not-a-text-file", message=message, line=line, column=column
        )
    try:
        return Source(name, data.decode("utf-8"))
    except UnicodeDecodeError as error:
        line, column = _place(data, error.start)
        message = f"line {line}, column {column} is not UTF-8; save the file as UTF-8"
        return UnreadableFile(name=name, code="GS195", rule="not-utf-8", message=message, line=line, column=column)


def _place(data: bytes, at: int) -> tuple[int, int]:
    """Line and column, from 1, of a byte in a text that is valid up to there."""
    before = data[:at].decode("utf-8", "replace").removeprefix("\ufeff")
    lines = before.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return len(lines), len(lines[-1]) + 1
