"""The page of a file: title, gestures with their headings, passages, footnotes, cautions."""

from __future__ import annotations

import re

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Footnote, Music
from gesturesmith.sheets import _score
from gesturesmith.sheets._footnotes import Room, room
from gesturesmith.sheets._tempo import tempo_markup
from gesturesmith.units import UNISON
from gesturesmith.wording import said
from gesturesmith.wording import text as wording

_NO_BREAK = "\N{NO-BREAK SPACE}"
_FINDINGS = 5  # shown above the music of a draft


def book(
    engravings: tuple[EngravedMusic, ...],
    settings: Settings,
    *,
    output: str,
    refused: tuple[tuple[str, str], ...] = (),
    unread: tuple[str, ...] = (),
    notes_page: bool = False,
    quotes: tuple[LyText, ...] = (),
) -> LyText:
    """A `\\book` called `output` (a name we choose).

    refused     title and reason of what is left out, listed at the end of the page
    unread      titles of what could not be read, listed there as well
    quotes      lines that cues are taken from
    notes_page  whether the marks have the numbers of a notes page; the head of the page says so
    """
    musics = tuple(engraving.music for engraving in engravings)
    kept = room(musics, settings)
    concert = any(m.pitches == "sounding" for m in musics) and settings.instrument.sounding != UNISON
    told = [key for key, holds in (("score-sounding", concert), ("see-notes", notes_page)) if holds]
    draft = any(m.draft for m in musics)
    parts = [*quotes, head(settings, output, kept.common, whom=settings.head_name(), draft=draft, told=told)]
    for kind in ("gesture", "passage"):
        some = [(number, one) for number, one in enumerate(engravings) if one.music.kind == kind]
        if some:
            parts.append(section(said(f"heading-{kind}s", settings.wording)))
        parts += [_score_of(one.music, with_notes(one, number, kept), settings) for number, one in some]
    parts += end(musics, settings, refused, unread)
    return joined((*parts, code("}\n")))


def head(
    settings: Settings, output: str, common: tuple[str, ...], *, whom: str, draft: bool, told: list[str]
) -> LyText:
    """The opening of a book up to its music: its head and paper. `whom`: for whom it is."""
    width, height = (float(mm) for mm in settings.paper_mm)
    fields = {
        "title": settings.title,
        "subtitle": settings.subtitle,
        "composer": settings.composer,
        "instrument": whom,
    }
    lines = [_score.field(name, value) for name, value in fields.items() if value]
    if settings.tempo_given:
        mark = tempo_markup(settings.tempo, settings.tempo_text, settings.meter, settings.counted)
        lines.append(f"  tempoLine = \\markup {mark}")
    if told:
        inside = " ".join(f"\\gs-finding {quoted(said(key, settings.wording))}" for key in told)
        lines.append(f"  pitchLine = \\markup \\column {{ {inside} }}")
    if draft:
        lines.append(f"  draft = \\markup {_score.stamp(settings)}")
        lines.append(f"  noticeLine = \\markup \\gs-finding {quoted(said('draft-notice', settings.wording))}")
    lines.append(f"  {_score.header(settings.title or '', settings.composer or '')}")
    return code(
        f"""\\gsPages #'({" ".join(quoted(text) for text in common)})
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


def section(text: str) -> LyText:
    """A heading."""
    # A heading is never alone at the foot of a page.
    return code(f"\\markup \\gs-section {quoted(text)}\n\\noPageBreak")


def _score_of(music: Music, ly: LyText, settings: Settings) -> LyText:
    """A gesture in a row beside its title; a passage across the page below its title. Findings of a draft come
    first."""
    row = music.kind == "gesture"
    header = above(music, music.draft, settings, row=row)
    label = code(f"\\gs-label {quoted(music.title or music.name)}") if row else code("")
    return code(
        f"""{_score.place_mark(music)}
\\score {{
{_score.staff(music, settings, ly, label)}
{header}{_score.layout(music, "Row" if row else "Lines")}
}}"""
    )


def above(music: Music, draft: tuple[str, ...], settings: Settings, *, row: bool) -> str:
    """The header of a score: its title, if that is not beside it, and the findings of a draft."""
    found = [code(f"\\gs-finding {quoted(_unbroken(line, settings))}") for line in _shown(draft, settings)]
    if not row:
        found.insert(0, code(f"\\gs-heading {quoted(music.title or music.name)}"))
    return f"\\header {{ piece = \\markup \\column {{ {' '.join(found)} }} }}\n" if found else ""


def _shown(draft: tuple[str, ...], settings: Settings) -> tuple[str, ...]:
    """The verdict and as many findings as leave room for the music."""
    more = len(draft) - 1 - _FINDINGS
    if more < 2:
        return draft
    more_of_them = wording("draft-more", settings.wording[0]).replace("{count}", str(more))
    return (*draft[: 1 + _FINDINGS], more_of_them)


def with_notes(engraving: EngravedMusic, number: int, kept: Room) -> LyText:
    """The music with its footnote texts at their marks; without texts of its own it keeps its numbers."""

    def mark(footnotes: tuple[Footnote, ...]) -> LyText:
        kept_here = ("#t" if (number, f.text) in kept.counted else "#f" for f in footnotes)
        noted = (f"({quoted(f.text)} . {counts})" for f, counts in zip(footnotes, kept_here, strict=True))
        return code(f"\\gsPageMark #'({' '.join(noted)})")

    return engraving.marked(mark)


def _unbroken(text: str, settings: Settings) -> str:
    """A sentence of the checker with names of fingerings kept on one line: `F 0` gets a no-break space."""
    names = sorted({t.name for t in settings.instrument.tubes if " " in t.name}, key=lambda n: (-len(n), n))
    if not names:
        return text
    pattern = rf"(?<!\w)(?:{'|'.join(re.escape(n) for n in names)})(?!\w)"
    return re.sub(pattern, lambda match: match[0].replace(" ", _NO_BREAK), text)


def _together(paragraphs: list[LyText]) -> list[LyText]:
    """Paragraphs that stay on one page."""
    return [code("\n\\noPageBreak\n".join(paragraphs))]


def end(
    musics: tuple[Music, ...], settings: Settings, refused: tuple[tuple[str, str], ...], unread: tuple[str, ...]
) -> list[LyText]:
    """Cautions, and what is left out."""
    cautions = list(dict.fromkeys(c for music in musics for c in music.cautions))
    parts = []
    if cautions:
        parts.append(section(said("heading-cautions", settings.wording)))
        cautions.append(said("caution-decide", settings.wording))
        parts += _together([code(f"\\markup \\gs-paragraph {quoted(caution)}") for caution in cautions])
    if refused or unread:
        parts.append(section(said("heading-remarks", settings.wording)))
    for title, reason in refused:
        left_out = said("refused-gesture", settings.wording).replace("{title}", title)
        # Reasons are in English.
        why = f" {reason[0].upper()}{reason[1:].rstrip('.')}." if reason and "en" in settings.wording else ""
        parts.append(code(f"\\markup \\gs-paragraph {quoted(_unbroken(left_out + why, settings))}"))
    for title in unread:
        missing = said("unread-gesture", settings.wording).replace("{title}", title)
        parts.append(code(f"\\markup \\gs-paragraph {quoted(missing)}"))
    return parts
