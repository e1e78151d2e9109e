"""The contents and numbering of a notes page: a pure function of its parts."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from dataclasses import replace
from itertools import count
from typing import get_args

from gesturesmith.backends.lilypond import EngravedMusic
from gesturesmith.exercises.preparation import harmonics
from gesturesmith.kinds import Layer
from gesturesmith.model.excerpt import excerpt, with_harmonics
from gesturesmith.model.piece import Settings
from gesturesmith.pinned import NOTHING_PINNED, PinnedNumbers
from gesturesmith.realise import realise
from gesturesmith.rules.base import Case
from gesturesmith.score.music import Footnote, Music
from gesturesmith.score.notes import plays, told_where
from gesturesmith.sheets._signs import SIGNS, Sign, Use, is_quarter_tone
from gesturesmith.techniques.base import GROUP_OF_LAYER, Technique
from gesturesmith.values import frozen
from gesturesmith.wording import technique_text, technique_title
from gesturesmith.wording import text as wording

SIGN_GROUPS = ("heads", "lines", "pitch", "time", "breath")
_MAX_POINTS = 4  # in a picture of a technique that moves along a line
_MAX_DETACHED = 3
_WHOLE_POINTS = 8  # a gesture with no more points is shown whole
_LONGEST_TEXT = 24  # letters above the staff for which a picture has room
_MAX_NAMES = 3  # of gestures with the same text, and of the pieces they are in


@frozen(kw_only=True)
class NotesPart:
    """One file with its engraved music.

    name      the name of the file, as shown to people
    source    the same without the name of a part
    gestures  its gestures, each with its music
    played    what else passages play: single pitches and transposed gestures
    passages  the music of its passages
    unread    titles of what is missing because it could not be read
    """

    name: str
    source: str = ""
    settings: Settings
    gestures: tuple[tuple[Case, Music], ...]
    played: tuple[tuple[Case, Music], ...] = ()
    passages: tuple[Music, ...] = ()
    unread: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[tuple[Case, Music], ...]:
        return (*self.gestures, *self.played)

    @property
    def printed(self) -> tuple[Music, ...]:
        """All its printed music."""
        return (*(music for _, music in self.gestures), *self.passages)


# What an entry for gestures with a text of their own is about: the text, and the techniques of the gestures.
type OwnText = tuple[str, tuple[str, ...]]


@frozen(kw_only=True)
class Numbers:
    """A numbering: the number of each technique, by key, and of each of the composer's own texts."""

    techniques: tuple[tuple[str, str], ...] = ()
    own: tuple[tuple[OwnText, str], ...] = ()

    def label(self, footnote: Footnote) -> str:
        """The label of a footnote at the note: one number or, if the composer adds to our text, two."""
        technique, own = dict(self.techniques), dict(self.own)
        numbers = [technique[key] for key in footnote.techniques]
        return ", ".join([*numbers, own[footnote.own, footnote.plays]] if footnote.own else numbers)

    def on(self, engraving: EngravedMusic) -> EngravedMusic:
        """The music with these numbers at its marks, without its own footnote texts."""
        return engraving.noted({f.number: self.label(f) for f in engraving.music.footnotes})


@frozen(kw_only=True)
class NotesEntry:
    """One row of a page.

    number        "" for a sign, which has none in the part
    names, texts  one for each language; the composer's own text comes first, as written
    case          the gesture shown in its picture, with the settings of its file
    music         the gesture's music, if shown whole
    """

    number: str = ""
    names: tuple[str, ...]
    texts: tuple[str, ...]
    case: Case
    settings: Settings
    music: Music | None = None


@frozen(kw_only=True)
class Section:
    """A heading, one for each language, and its rows."""

    title: tuple[str, ...]
    entries: tuple[NotesEntry, ...]


@frozen(kw_only=True)
class Choice:
    """The rows of a notes page and their numbering; `pinned`: the same to be kept for the next delivery."""

    sections: tuple[Section, ...]
    numbers: Numbers
    pinned: PinnedNumbers = NOTHING_PINNED


def choose(
    parts: tuple[NotesPart, ...], languages: tuple[str, ...], pinned: PinnedNumbers = NOTHING_PINNED
) -> Choice:
    """The rows of the notes page of these parts, in the given languages.

    Every sign and technique once; then gestures with the composer's own texts. The order of sections is always the
    same, and within each the numbers ascend. What has a `pinned` number keeps it; anything else gets the numbers
    after all of these, down the page.
    """
    uses = tuple(Use(case=case, music=music, settings=part.settings) for part in parts for case, music in part.all)
    used = _used(uses)
    groups = _grouped(used)
    own = _own_texts(parts)
    numbers = _numbered(tuple(t for found in groups.values() for t in found), own, pinned)
    of_technique, of_text = dict(numbers.techniques), dict(numbers.own)
    sections = [*_sign_sections(uses, languages)]
    for group, found in groups.items():
        those = sorted(found, key=lambda t: int(of_technique[t.key]))
        rows = tuple(_technique_entry(t, used[t], of_technique[t.key], languages) for t in those)
        means = {one.gesture.instrument.means for t in found for one in used[t]}
        title = said(f"group-{group}", languages, means.pop() if len(means) == 1 else "both")
        sections.append(Section(title=title, entries=rows))
    if own:
        rows = tuple(
            _gesture_entry(key[0], own[key], number, of_technique, languages, parts)
            for key, number in sorted(of_text.items(), key=lambda one: int(one[1]))
        )
        sections.append(Section(title=said("heading-gestures", languages), entries=rows))
    return Choice(sections=tuple(sections), numbers=numbers, pinned=_pinned(numbers, own, pinned))


type _Own = dict[OwnText, list[tuple[NotesPart, Case, Music]]]


def _numbered(order: tuple[Technique, ...], own: _Own, pinned: PinnedNumbers) -> Numbers:
    """The numbers of a page: those pinned, then new ones in its order."""
    next_number = count(pinned.last + 1)
    of_technique, of_gesture = dict(pinned.techniques), dict(pinned.gestures)
    techniques = tuple((t.key, str(of_technique.get(t.key) or next(next_number))) for t in order)
    taken: set[int] = set()
    texts = []
    for key, mine in own.items():
        before = (of_gesture.get(pin(part, case)) for part, case, _ in mine)
        # If gestures that shared an entry have texts of their own now, the first keeps the number.
        number = next((n for n in before if n is not None and n not in taken), None) or next(next_number)
        taken.add(number)
        texts.append((key, str(number)))
    return Numbers(techniques=techniques, own=tuple(texts))


def _pinned(numbers: Numbers, own: _Own, before: PinnedNumbers) -> PinnedNumbers:
    techniques = dict(before.techniques) | {key: int(number) for key, number in numbers.techniques}
    gestures = dict(before.gestures)
    for key, number in numbers.own:
        gestures |= {pin(part, case): int(number) for part, case, _ in own[key]}
    return PinnedNumbers(techniques=tuple(techniques.items()), gestures=tuple(gestures.items()))


def pin(part: NotesPart, case: Case) -> str:
    """The name by which the number of a gesture is kept."""
    return f"{part.source or part.name}: {case.gesture.name}"


def said(key: str, languages: tuple[str, ...], means: str = "") -> tuple[str, ...]:
    """A text of `wording`, one for each language."""
    return tuple(wording(key, language, means) for language in languages)


# --- signs -----------------------------------------------------------------------------------------------------


def _sign_sections(uses: tuple[Use, ...], languages: tuple[str, ...]) -> Iterator[Section]:
    first = ((sign, next((one for one in uses if sign.used(one)), None)) for sign in SIGNS)
    seen = [(sign, one) for sign, one in first if one is not None]
    for group in SIGN_GROUPS:
        rows = tuple(_sign_entry(sign, one, languages) for sign, one in seen if sign.group == group)
        if rows:
            yield Section(title=said(f"group-{group}", languages), entries=rows)


def _sign_entry(sign: Sign, one: Use, languages: tuple[str, ...]) -> NotesEntry:
    stretch, keep = sign.shown(one), None if "techniques" in sign.keeps else ()
    if stretch is None and one.gesture.sing is not None:
        # The played line does not show it: it is in the sung line, which only the whole gesture has.
        stretch, keep = (0, len(one.gesture.points) - 1), None
    first, last = stretch or (one.start, one.until(_MAX_POINTS))
    shown = excerpt(
        one.gesture,
        first,
        last,
        keep=keep,
        dynamics="dynamics" in sign.keeps,
        band="band" in sign.keeps,
        said="said" in sign.keeps,
    )
    return NotesEntry(
        names=said(f"sign-{sign.key}", languages),
        texts=said(f"remark-{sign.key}", languages, one.gesture.instrument.means),
        case=Case(gesture=shown, realisation=realise(shown)),
        # Out of context a note may have another fingering, and fingerings are not the point here.
        settings=replace(one.settings, fingerings="none"),
    )


def _cut(case: Case, first: int, last: int, keep: Container[str] | None, *, dynamics: bool = False) -> Case:
    """Part of a gesture as played there; if a technique that changes the fingering is left out, as played without
    it."""
    shown = excerpt(case.gesture, first, last, keep=keep, dynamics=dynamics)
    gone = [t for t in case.techniques if keep is not None and t.key not in keep]
    if any(t.path != "none" or t.trill or t.bell_hand or t.takes_mute for t in gone):
        return Case(gesture=shown, realisation=realise(shown))
    inside = [p for p in case.realisation.points if first <= p.index <= last]
    start = case.gesture.points[first].at
    points = tuple(replace(p, index=p.index - first, at=p.at - start) for p in inside)
    return Case(
        gesture=shown,
        realisation=replace(case.realisation, techniques=shown.techniques, points=points, used_fallback=""),
    )


# --- techniques ------------------------------------------------------------------------------------------------


def techniques_of(case: Case) -> tuple[Technique, ...]:
    """The techniques a gesture uses, except ordinary playing, in order of appearance."""
    found = dict.fromkeys(t for p in case.gesture.sounding_points for t in case.in_force(p))
    return tuple(t for t in found if t.layer != "none")


def quarter_tones(part: NotesPart) -> bool:
    """Whether a part has quarter-tone accidentals."""
    return any(is_quarter_tone(music) for _, music in part.all)


def _used(uses: tuple[Use, ...]) -> dict[Technique, list[Use]]:
    """All techniques in order of first appearance, each with its uses: first those where it is alone, which show it
    best."""
    alone: dict[Technique, list[Use]] = {}
    joined: dict[Technique, list[Use]] = {}
    for one in uses:
        found = techniques_of(one.case)
        for technique in found:
            joined.setdefault(technique, [])
            (alone if len(found) == 1 else joined).setdefault(technique, []).append(one)
    return {technique: [*alone.get(technique, []), *others] for technique, others in joined.items()}


def _grouped(used: Iterable[Technique]) -> dict[str, list[Technique]]:
    """Techniques by group, in the order of layers, and within each in order of appearance."""
    groups: dict[str, list[Technique]] = {group: [] for group in GROUPS}
    for technique in used:
        groups[_group(technique.layer)].append(technique)
    return {group: found for group, found in groups.items() if found}


def _group(layer: Layer) -> str:
    return GROUP_OF_LAYER.get(layer, layer)


GROUPS = tuple(dict.fromkeys(_group(layer) for layer in get_args(Layer)))


def _technique_entry(technique: Technique, those: list[Use], number: str, languages: tuple[str, ...]) -> NotesEntry:
    one = those[0]
    case = _showing(technique, one)
    swept = _with_harmonics(case) if technique.look.partials else case
    wheres = tuple(dict.fromkeys(told_where(use.case) for use in those))
    words = replace(one.settings, wording=languages).page_words
    added = "remark-partials" if swept is not case else ""
    return NotesEntry(
        number=number,
        names=tuple(technique_title(technique, language) for language in languages),
        texts=tuple(
            " ".join(
                [
                    *dict.fromkeys(
                        words.quoted(technique, technique_text(technique, language, *where)) for where in wheres
                    ),
                    *([wording(added, language)] if added else []),
                ]
            )
            for language in languages
        ),
        case=swept,
        settings=_telling(one.settings),
    )


def _telling(settings: Settings) -> Settings:
    """Show fingerings on a notes page even if the part has none."""
    return replace(settings, fingerings="needed") if settings.fingerings == "none" else settings


def _with_harmonics(case: Case) -> Case:
    """A sweep with the harmonics along each of its lines; unchanged if there are none or not all of them can be
    shown."""
    gesture, points = case.gesture, case.realisation.points
    played = {p.index: p for p in points}
    # From the last, so that the indices of the others stay valid.
    for line in reversed([n for n, segment in enumerate(gesture.segments) if segment.slides]):
        start, end = played[line], played[line + 1]
        step = 1 if end.partial > start.partial else -1
        between = range(start.partial + step, end.partial, step)
        if start.tube is None or not between:
            continue
        ladder = harmonics(case.instrument, start.tube, max(between))
        shown = with_harmonics(gesture, line, [ladder[n - 1] for n in between])
        if shown is gesture:
            return case
        gesture = shown
        points = tuple(replace(p, index=p.index + len(between)) if p.index > line else p for p in points)
    if gesture is case.gesture:
        return case
    return Case(gesture=gesture, realisation=replace(case.realisation, points=points))


def _showing(technique: Technique, one: Use) -> Case:
    """The few points of a gesture that show a technique: from its beginning, or a gradual change to or from it."""
    points, case = one.gesture.points, one.case
    inside = [i for i, p in enumerate(points) if p.kind != "silence" and technique in case.in_force(p)]
    first = last = inside[0]
    changes = first > 0 and points[first].reached == "line"
    alone = techniques_of(case) == (technique,)
    moves = technique.needs_line or technique.path != "none"
    if one.gesture.attacks is not None or technique.sings or (alone and len(points) <= _MAX_POINTS):
        first, last = 0, len(points) - 1
    elif alone or moves:
        most = first + (_MAX_POINTS if moves else _MAX_DETACHED)
        while last + 1 in inside and last + 1 < most:
            last += 1
    if changes and first:
        first -= 1
    elif last + 1 < len(points) and last + 1 not in inside and points[last + 1].reached == "line":
        last, changes = last + 1, True
    kept = {t.key for p in points[first : last + 1] for t in case.in_force(p) if t.layer == technique.layer}
    return _cut(case, first, last, kept if changes else (technique.key,))


# --- gestures --------------------------------------------------------------------------------------------------


def _own_texts(parts: tuple[NotesPart, ...]) -> _Own:
    """The composer's own texts with all their gestures, in order: one entry for gestures with the same text and
    the same techniques."""
    found: _Own = {}
    for part in parts:
        for case, music in part.all:
            text = case.gesture.own_words
            if text is not None:
                found.setdefault((text, plays(case)), []).append((part, case, music))
    return found


def _gesture_entry(
    text: str,
    mine: list[tuple[NotesPart, Case, Music]],
    number: str,
    techniques: dict[str, str],
    languages: tuple[str, ...],
    parts: tuple[NotesPart, ...],
) -> NotesEntry:
    """A gesture with its own text, which also names the techniques whose standard text it replaces."""
    part, case, music = mine[0]
    replaced = dict.fromkeys(t for _, c, _ in mine if c.gesture.footnote is not None for t in techniques_of(c))
    gesture = case.gesture
    whole = len(gesture.points) <= _WHOLE_POINTS and len(gesture.text or "") <= _LONGEST_TEXT
    last = min(_WHOLE_POINTS, len(gesture.points)) - 1
    shown = None if whole else _cut(case, 0, last, None, dynamics=True)
    see = (" ".join(_see(t, techniques[t.key], language) for t in replaced) for language in languages)
    return NotesEntry(
        number=number,
        names=(_names(mine, languages, parts),),
        texts=(*(gesture.own_texts or (text,)), *(line for line in see if line)),
        case=shown or case,
        settings=_telling(part.settings),
        # Engraved again only if shown differently from the part.
        music=music if whole and part.settings.fingerings != "none" else None,
    )


def _see(technique: Technique, number: str, language: str) -> str:
    said_so = wording("see-note", language).replace("{number}", number)
    return said_so.replace("{title}", technique_title(technique, language))


def _names(
    mine: list[tuple[NotesPart, Case, Music]], languages: tuple[str, ...], parts: tuple[NotesPart, ...]
) -> str:
    """The names of gestures; of several parts or pieces, each place with the gestures there: `Ash, Fern (Horn 1);
    Ash (Tuba)`."""
    by_place: dict[str, dict[str, None]] = {}
    for part, case, _ in mine:
        place = _place(part, languages, parts)
        by_place.setdefault(place, {})[case.gesture.title or case.gesture.name] = None
    told = [f"{_some(list(names))} ({place})" if place else _some(list(names)) for place, names in by_place.items()]
    return _some(told, "; ")


def _place(part: NotesPart, languages: tuple[str, ...], parts: tuple[NotesPart, ...]) -> str:
    """What tells a part from the others of a page: its piece if there are several, its name if they differ, else
    its file."""
    titles = {p.settings.title for p in parts}
    alike = [p for p in parts if p.settings.title == part.settings.title]
    name = part.settings.part_name(languages)
    same_name = {p.source or p.name for p in alike if p.settings.part_name(languages) == name}
    piece = [part.settings.title or part.source or part.name] if len(titles) > 1 else []
    own = [name] if len({p.settings.part_name(languages) for p in alike}) > 1 else []
    file = [part.source or part.name] if len(same_name) > 1 else []
    return ", ".join(dict.fromkeys((*piece, *own, *file)))


def _some(names: list[str], between: str = ", ") -> str:
    return between.join(names[:_MAX_NAMES]) + (f"{between}…" if len(names) > _MAX_NAMES else "")
