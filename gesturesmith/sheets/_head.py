"""The opening of books that are not the page of a file: sheets and charts."""

from __future__ import annotations

from gesturesmith.lytext import LyText, code
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.values import frozen


@frozen(kw_only=True)
class PageHeader:
    """The head of the first page.

    title, subtitle   in the middle; subtitle "" for none
    left, right       below them: for whom or what, and by whom; "" for none
    """

    title: str
    subtitle: str = ""
    left: str = ""
    right: str = ""


def opening(head: PageHeader, output: str, paper: str, settings: Settings) -> LyText:
    """The beginning of a `\\book` called `output`, up to its music. `paper`: the name of one of our page
    settings."""
    width, height = (float(mm) for mm in settings.paper_mm)
    fields = {
        "title": head.title,
        "subtitle": head.subtitle,
        "instrument": head.left,
        "composer": head.right,
    }
    lines = [_score.field(name, value) for name, value in fields.items() if value]
    lines.append(f"  {_score.header(head.title, head.right)}")
    return code(
        f"""\\gsPages #'()
\\book {{
\\header {{
{chr(10).join(lines)}
}}
\\paper {{ \\{paper}
  paper-width = {width:g}\\mm paper-height = {height:g}\\mm
  {_score.staff_size(settings)}
}}
\\bookOutputName "{output}"
"""
    )
