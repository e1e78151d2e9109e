"""The beginning of every document: the templates. LilyPond reads it before its document comes.

Most of the templates is Scheme, which LilyPond interprets. Compiled once (1 s of processor time), it is read in
half the time and engraves faster. What was compiled is stored by its LilyPond and by the templates; without it the
text is read, with the same result.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Protocol

from gesturesmith import paths
from gesturesmith.inlining import inlined
from gesturesmith.lytext import LyText, code
from gesturesmith.values import frozen

if TYPE_CHECKING:
    from gesturesmith.lilypond.program import LilyPond

_COMMON = ("gesturesmith.ily", "sheet.ily", "page.ily")  # the other page settings build on these
SOURCE, COMPILED = "stencils.scm", "stencils.go"  # their names in LilyPond's folder
_GUILE_3 = (2, 25, 0)  # the first with Guile 3: that of 2.24 compiles for ten seconds
_FORM = re.compile(r"^#\(", re.MULTILINE)
_FUNCTION = re.compile(r"#\((define\*? \(|define-markup-command|define-markup-list-command)")
_LILYPOND_IN_SCHEME = "#{"  # only LilyPond's own reader knows it
_COMPILE = f"""
#(use-modules (system base compile))
#(compile-file "{SOURCE}" #:output-file "{COMPILED}" #:env (current-module))
#(load-compiled "{COMPILED}")
"""


class Keeper(Protocol):
    """Keeps bytes by key between runs. What it gives is what was put, or nothing."""

    def get(self, key: str) -> bytes | None:
        """The bytes, if there are any."""

    def put(self, key: str, data: bytes) -> None:
        """Keep them."""


@frozen(kw_only=True)
class DocumentHead:
    """What LilyPond reads before its document, and the files beside it in its folder."""

    text: LyText
    files: tuple[tuple[str, bytes], ...] = ()


@cache
def head() -> LyText:
    """The templates, and the language of note names."""
    others = sorted({path.name for path in paths.templates().glob("*.ily")}.difference(_COMMON))
    includes = "".join(f'\\include "{name}"\n' for name in (*_COMMON, *others))
    return code(f'\\version "2.24.0"\n{includes}\\language "english"\n')


def has_head(document: str) -> bool:
    """Whether a document begins with the head, so that one who has read it need not read it again."""
    return document.startswith(head())


def headless(document: str) -> str:
    """A document without its head; every line keeps its number, and messages their place."""
    version, _, rest = head().partition("\n")
    return f"{version}\n" + "\n" * rest.count("\n") + document.removeprefix(head())


def compiles(lilypond: LilyPond) -> bool:
    """Whether compiling is worth its time with this LilyPond."""
    return lilypond.version >= _GUILE_3


def compiled_key(lilypond: LilyPond) -> str:
    """The key under which what was compiled is kept: by the program itself and the templates."""
    stat = lilypond.path.stat()
    program = (str(lilypond.path), lilypond.version, stat.st_size, stat.st_mtime_ns)
    found = hashlib.sha256(repr((program, head(), _COMPILE)).encode())
    for path in sorted(paths.templates().rglob("*.ily")):
        found.update(path.read_bytes())
    return found.hexdigest()


def compiling() -> tuple[DocumentHead, LyText]:
    """The head and the document with which LilyPond compiles the stencils."""
    _, functions = _divided()
    whole = code(inlined(head()))
    return DocumentHead(text=whole, files=((SOURCE, functions.encode()),)), code(head() + _COMPILE)


def packed(compiled: bytes) -> bytes:
    """What is kept: the rest of the templates, and the compiled functions; nothing if compiling failed."""
    rest = _divided()[0].encode()
    return b"%d\n%b%b" % (len(rest), rest, compiled) if compiled else b""


def ready_head(kept: bytes | None) -> DocumentHead:
    """The head as LilyPond reads it, with what was kept: that of `packed`, or nothing."""
    if not kept:
        return DocumentHead(text=head())
    size, _, data = kept.partition(b"\n")
    return DocumentHead(text=code(data[: int(size)].decode()), files=((COMPILED, data[int(size) :]),))


@cache
def _divided() -> tuple[LyText, str]:
    """The templates without their functions, after what loads these, and the functions."""
    text = inlined(head())
    rest: list[str] = []
    functions: list[str] = []
    end = 0
    for begin, after in _forms(text):
        form = text[begin:after]
        if _FUNCTION.match(form) and _LILYPOND_IN_SCHEME not in form:
            rest.append(text[end:begin])
            functions.append(form.removeprefix("#"))
            end = after
    version, _, others = ("".join(rest) + text[end:]).partition("\n")
    return code(f'{version}\n#(load-compiled "{COMPILED}")\n{others}'), "\n".join(functions)


def _forms(text: str) -> Iterator[tuple[int, int]]:
    """Where each Scheme form at the beginning of a line begins and ends."""
    for match in _FORM.finditer(text):
        at, depth = match.start() + 1, 0
        while True:
            if text[at] == '"':
                at += 1
                while text[at] != '"':
                    at += 2 if text[at] == "\\" else 1
            elif text[at] == ";":
                at = text.index("\n", at)
            elif text.startswith("#\\", at):  # a character, or its name
                at += 2
                while text[at + 1].isalnum():
                    at += 1
            elif text[at] == "(":
                depth += 1
            elif text[at] == ")":
                depth -= 1
                if not depth:
                    break
            at += 1
        yield match.start(), at + 1
