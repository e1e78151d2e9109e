"""How Sphinx builds the handbook: from the pages that build.py writes, with a look of our own."""

from __future__ import annotations

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
    """Wide tables are moved from side to side on a narrow screen, not squeezed."""
    for table in list(doctree.findall(nodes.table)):
        around = nodes.container(classes=["table"])
        table.replace_self(around)
        around += table


def setup(app: Sphinx) -> dict[str, Any]:
    app.add_lexer("gesture", GestureLexer)
    app.connect("doctree-resolved", _scrolled)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
