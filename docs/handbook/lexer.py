"""Syntax colouring of gesture files."""

from __future__ import annotations

from pygments.lexer import RegexLexer, bygroups
from pygments.token import Comment, Keyword, Name, Number, Operator, String, Text

from gesturesmith.lang.keys import EVERY_KEY
from gesturesmith.lang.words import BLOCKS, SIGNS


class GestureLexer(RegexLexer):
    """A gesture file: blocks, keys, texts, pitches with their times, lines."""

    name = "gesture file"
    aliases = ("gesture",)
    filenames = ("*.gesture",)
    tokens = {  # noqa: RUF012  # as Pygments expects
        "root": [
            (r"^#.*$|(?<=\s)#.*$", Comment),
            (rf"^({'|'.join(BLOCKS)})(\s+)([\w-]+)", bygroups(Keyword, Text, Name.Class)),
            (rf"^([^\S\n]*)({'|'.join(sorted(EVERY_KEY))})(:)", bygroups(Text, Name.Attribute, Operator)),
            (r'"[^"\n]*"', String),
            (r"x?[A-G](##|bb|[#b]?[\^v]?)\d([+-]\d+c)?", Number),
            (r"@[\d./]+", Name.Decorator),
            ("|".join(sorted((s.replace(".", r"\.") for s in SIGNS.values()), key=len, reverse=True)), Operator),
            (r"[\w-]+", Text),
            (r"\n|[^\S\n]+|.", Text),
        ]
    }
