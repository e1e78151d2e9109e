"""The score of a file for several instruments: each passage with the lines of all parts below each other."""

from __future__ import annotations

from fractions import Fraction

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.backends.lilypond.marks import grace_beats
from gesturesmith.lytext import LyText, code, joined, quoted
from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Footnote, Music
from gesturesmith.score.staves import Staff
from gesturesmith.sheets import _score, page, snippet
from gesturesmith.sheets._footnotes import room
from gesturesmith.sheets._timeline import graces, skip
from gesturesmith.units import UNISON
from gesturesmith.values import frozen
from gesturesmith.wording import said


@frozen(kw_only=True)
class ScoreStaff:
    """The line of one part in a passage; `name` is printed before the first system, `short` before the others.

    player   which of two divided players, as printed; "" for all
    """

    name: str
    short: str
    player: str = ""
    settings: Settings
    engraving: EngravedMusic

    @property
    def line(self) -> Staff:
        """The same without its LilyPond text."""
        music = self.engraving.music
        return Staff(name=self.name, short=self.short, player=self.player, settings=self.settings, music=music)


# The lines of a passage, from the top of the page.
type System = tuple[ScoreStaff, ...]


def book(
    passages: tuple[System, ...],
    settings: Settings,
    *,
    output: str,
    refused: tuple[tuple[str, str], ...] = (),
    unread: tuple[str, ...] = (),
    notes_page: bool = False,
    quotes: tuple[LyText, ...] = (),
    of_part: bool = False,
) -> LyText:
    """A `\\book` called `output`; arguments as those of a page (see `page.book`).

    of_part   the part of two players, who have a staff each where they are divided and one elsewhere
    """
    musics = tuple(staff.engraving.music for system in passages for staff in system)
    kept = room(musics, settings)
    told = [
        key
        for key, holds in (
            ("score-sounding", _concert(passages)),
            ("score-written", _transposed(passages) and not of_part),
            ("see-notes", notes_page),
        )
        if holds
    ]
    draft = any(m.draft for m in musics)
    whom = settings.head_name() if of_part else settings.part_name(settings.wording)
    parts = [*quotes, page.head(settings, output, kept.common, whom=whom, draft=draft, told=told)]
    if passages:
        parts.append(page.section(said("heading-passages", settings.wording)))
    number = 0
    for system in passages:
        texts = []
        for staff in system:
            texts.append(page.with_notes(staff.engraving, number, kept))
            number += 1
        parts.append(_score_of(system, tuple(texts), settings))
    parts += page.end(musics, settings, refused, unread)
    return joined((*parts, code("}\n")))


def picture(system: System, settings: Settings, *, output: str) -> LyText:
    """A `\\book` called `output` with one passage as a picture, its footnotes below."""
    music = system[0].engraving.music
    numbers: dict[str, str] = {}
    for staff in system:
        for footnote in staff.engraving.music.footnotes:
            numbers.setdefault(footnote.text, str(len(numbers) + 1))
    counted = tuple(_counted(staff.engraving, numbers).ly for staff in system)
    notes = tuple(Footnote(number=number, text=text) for text, number in numbers.items())
    draft = any(staff.engraving.music.draft for staff in system)
    score = code(f"{staves(system, counted)}\n{layout(system, 'Picture')}")
    return snippet.cropped(music, settings, score, notes, output=output, draft=draft)


def _counted(engraving: EngravedMusic, numbers: dict[str, str]) -> EngravedMusic:
    """The staves with the footnotes of all lines numbered together; those explained elsewhere keep their
    numbers."""
    own = {f.number: numbers[f.text] for f in engraving.music.footnotes}
    return engraving.renumbered(own) if own else engraving


def _concert(passages: tuple[System, ...]) -> bool:
    return any(s.engraving.music.pitches == "sounding" for system in passages for s in system)


def _transposed(passages: tuple[System, ...]) -> bool:
    """Whether a staff is at a pitch other than sounding."""
    return any(s.engraving.music.transposition != UNISON for system in passages for s in system)


def _score_of(system: System, texts: tuple[LyText, ...], settings: Settings) -> LyText:
    music = system[0].engraving.music
    lines = dict.fromkeys(line for staff in system for line in staff.engraving.music.draft)
    above = page.above(music, tuple(lines), settings, row=False)
    return code(
        f"""{_score.place_mark(music)}
\\score {{
{staves(system, texts)}
{above}{layout(system, "Lines")}
}}"""
    )


def staves(system: System, texts: tuple[LyText, ...]) -> LyText:
    """The staves of a passage with the texts of their music; tempo and the like are printed once, above the first.
    A single staff, in a part, has no name."""
    if len(system) == 1:
        return _score.staff(system[0].engraving.music, system[0].settings, texts[0])
    before = [_graces(staff.engraving.music) for staff in system]
    waits: dict[Fraction, Fraction] = {}
    for one in system:
        for at, beats in graces(one.engraving.music).items():
            waits[at] = max(beats, waits.get(at, beats))
    made = (
        _score.staff(
            staff.engraving.music,
            staff.settings,
            _later(text, max(before) - before[number]),
            _name(staff),
            short=code(quoted(f"{staff.short} {staff.player}".strip())) if staff.short else _score.NOTHING,
            upper=number == 0,
            alone=False,
            waits=waits,
        )
        for number, (staff, text) in enumerate(zip(system, texts, strict=True))
    )
    inside = "\n".join(made)
    return code(f"\\new StaffGroup <<\n{inside}\n>>")


def _graces(music: Music) -> Fraction:
    """The length of the grace notes at the beginning of a line."""
    first = next((event for part in music.parts for event in part.played.events), None)
    return grace_beats(len(first.graces)) if first is not None else Fraction(0)


def _later(text: LyText, beats: Fraction) -> LyText:
    """A line that waits for the grace notes of another, so that all print their meter together."""
    return code(f"\\grace {{ {skip(beats)} }}\n{text}") if beats else text


def _name(staff: ScoreStaff) -> LyText:
    """A part's name and, if needed, the player or the instrument of a transposed staff below it."""
    music = staff.engraving.music
    below = staff.settings.instrument.part_in(staff.settings.wording[0])
    if staff.player or music.transposition == UNISON or below in staff.name:
        below = staff.player
    return code(f"\\gs-staff-name {quoted(staff.name)} {quoted(below)}")


def layout(system: System, kind: str) -> LyText:
    """The layout of a passage: spaced by time if any of its lines is."""
    free = tuple(staff.engraving.music for staff in system if staff.engraving.music.free)
    plain: Music = free[0] if free else system[0].engraving.music
    return _score.layout(plain, f"Score{kind}" if len(system) > 1 else kind)
