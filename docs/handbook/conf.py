"""The Sphinx configuration of the handbook, which is built from the pages that build.py writes."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from docutils import nodes
from sphinx.application import Sphinx

from gesturesmith import __version__
from handbook.lexer import GestureLexer

_HERE = Path(__file__).parent

project = "Gesturesmith"
version = release = __version__
extensions = ["myst_parser", "sphinx.ext.autodoc"]
source_suffix = {".md": "markdown"}
root_doc = "index"
language = "en"
nitpicky = True
nitpick_ignore_regex = [("py:.*", ".*")]  # types of other libraries, and of modules that are not public
myst_heading_anchors = 3
myst_enable_extensions = ["attrs_block"]
autodoc_typehints = "signature"
autodoc_member_order = "bysource"

html_theme = "theme"
html_theme_path = [str(_HERE)]
html_title = "Gesturesmith: the handbook"
html_copy_source = False
html_show_sourcelink = False
html_show_copyright = False
html_use_index = True


def _scrolled(app: Sphinx, doctree: nodes.document, _name: str) -> None:
    """Wide tables scroll on a narrow screen instead of being squeezed."""
    for table in list(doctree.findall(nodes.table)):
        around = nodes.container(classes=["table"])
        table.replace_self(around)
        around += table


_ARGUMENT = re.compile(r"^(\w[\w, ]*?) {2,}(\S.*)$")


def _as_rst(app: Sphinx, what: str, name: str, obj: object, options: object, lines: list[str]) -> None:
    """Convert our docstrings to what Sphinx reads: arguments as a field list, `code` in double backticks."""
    made: list[str] = []
    in_fields = False
    for line in lines:
        found = _ARGUMENT.match(line)
        if found and not line.startswith(">>>"):
            if not in_fields and made and made[-1]:
                made.append("")
            in_fields = True
            made.append(f":{found[1]}: {found[2]}")
        elif in_fields and line.startswith(" "):
            made.append(f"    {line.strip()}")
        else:
            if in_fields and line:
                made.append("")
            in_fields = False
            made.append(line)
    lines[:] = [re.sub(r"(?<!`)`([^`\n]+)`(?!`)", r"``\1``", line) for line in made]


def setup(app: Sphinx) -> dict[str, Any]:
    app.add_lexer("gesture", GestureLexer)
    app.connect("doctree-resolved", _scrolled)
    app.connect("autodoc-process-docstring", _as_rst)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
