"""The page of a file: title, gestures one below the other with their headings, passages, footnotes, cautions."""

from __future__ import annotations

import re

from gesturesmith.engrave.music import Footnote, Music
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.sheets import _score
from gesturesmith.units import UNISON
from gesturesmith.wording import text as wording

_MARK = re.compile(r'(\\gsMark "([0-9, ]+)")')


def book(
    musics: tuple[Music, ...], settings: Settings, *, output: str, refused: tuple[tuple[str, str], ...] = ()
) -> LyText:
    """A `\\book` called `output` (a name of our own making).

    `refused`: title and reason of what is left out; the page says so at its end.
    """
    numbering = _Numbering()
    concert = any(m.pitches == "sounding" for m in musics)
    parts = [_head(settings, output, draft=any(m.draft for m in musics), concert=concert)]
    for kind in ("gesture", "passage"):
        some = [m for m in musics if m.kind == kind]
        if some:
            parts.append(_section(wording(f"heading-{kind}s", settings.wording[0])))
        parts += [_score_of(music, numbering, settings) for music in some]
    parts += _end(musics, settings, refused)
    return joined((*parts, code("}\n")))


class _Numbering:
    """Numbers of footnotes over a whole page: one for each text, in order of first appearance."""

    def __init__(self) -> None:
        self._numbers: dict[str, str] = {}

    def of(self, music: Music) -> tuple[LyText, tuple[Footnote, ...]]:
        """The music's text with this page's numbers, and those of its footnotes that are new here."""
        fresh = [f for f in music.footnotes if f.text not in self._numbers]
        for footnote in fresh:
            self._numbers[footnote.text] = str(len(self._numbers) + 1)
        own = {f.number: self._numbers[f.text] for f in music.footnotes}
        new = tuple(Footnote(number=self._numbers[f.text], text=f.text) for f in fresh)
        return music.renumbered(own), new


def _head(settings: Settings, output: str, *, draft: bool, concert: bool) -> LyText:
    width, height = (float(mm) for mm in settings.paper_mm)
    fields = {
        "title": settings.title,
        "subtitle": settings.subtitle,
        "composer": settings.composer,
        "instrument": settings.part or settings.instrument.part_name,
    }
    lines = [f"  {name} = {quoted(value)}" for name, value in fields.items() if value]
    if settings.tempo_given:
        words = quoted(settings.tempo_text or "")
        lines.append(f"  tempoLine = \\markup \\gs-tempo {words} {quoted(_score.tempo_number(settings.tempo))}")
    if concert and settings.instrument.sounding != UNISON:
        said = " / ".join(wording("score-sounding", language) for language in settings.wording)
        lines.append(f"  pitchLine = \\markup \\gs-finding {quoted(said)}")
    if draft:
        lines.append("  draft = \\markup \\gs-stamp")
    lines.append(f"  {_score.header(settings.title or '', settings.composer or '')}")
    return code(
        f"""\\gsPages
\\book {{
\\header {{
{chr(10).join(lines)}
}}
\\paper {{ \\gsPagePaper
  paper-width = {width:g}\\mm paper-height = {height:g}\\mm
  {_score.staff_size(settings)}
}}
\\bookOutputName "{output}"
"""
    )


def _section(text: str) -> LyText:
    # A heading never stands alone at the foot of a page.
    return code(f"\\markup \\gs-section {quoted(text)}\n\\noPageBreak")


def _score_of(music: Music, numbering: _Numbering, settings: Settings) -> LyText:
    """A gesture in a row beside its title; a passage across the page below it. Findings of a draft stand above."""
    ly, new = numbering.of(music)
    title = quoted(music.title or music.name)
    row = music.kind == "gesture"
    above = [code(f"\\gs-finding {quoted(line)}") for line in music.draft]
    if not row:
        above.insert(0, code(f"\\gs-heading {title}"))
    header = f"\\header {{ piece = \\markup \\column {{ {' '.join(above)} }} }}\n" if above else ""
    label = code(f"\\gs-label {title}") if row else code("")
    return code(
        f"""{_score.place_mark(music)}
\\score {{
{_score.staff(music, settings, _with_notes(ly, new), label)}
{header}{_score.layout(music, "Row" if row else "Lines")}
}}"""
    )


def _with_notes(ly: LyText, new: tuple[Footnote, ...]) -> LyText:
    """The text of each new footnote beside its first mark, so that it stands on the page where the mark does."""
    waiting = {f.number: f for f in new}

    def noted(match: re.Match[str]) -> str:
        here = [waiting.pop(n) for n in match[2].split(", ") if n in waiting]
        return " ".join([match[1], *(f"\\gsNoteText \\markup {_score.note(f)}" for f in here)])

    return code(_MARK.sub(noted, ly))


def _end(musics: tuple[Music, ...], settings: Settings, refused: tuple[tuple[str, str], ...]) -> list[LyText]:
    """Cautions, and what is left out."""
    language = settings.wording[0]
    cautions = list(dict.fromkeys(c for music in musics for c in music.cautions))
    parts = []
    if cautions:
        parts.append(_section(wording("heading-cautions", language)))
        cautions.append(" / ".join(wording("caution-decide", one) for one in settings.wording))
        parts += [code(f"\\markup \\gs-paragraph {quoted(caution)}") for caution in cautions]
    if refused:
        parts.append(_section(wording("heading-remarks", language)))
    for title, reason in refused:
        said = wording("refused-gesture", language).replace("{title}", title)
        why = f" {reason[0].upper()}{reason[1:].rstrip('.')}." if reason else ""
        parts.append(code(f"\\markup \\gs-paragraph {quoted(said + why)}"))
    return parts
