"""The settings of a file, every default filled in."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from gesturesmith import instruments
from gesturesmith.instruments.base import Instrument
from gesturesmith.kinds import Pitches, one_of
from gesturesmith.lang import nodes
from gesturesmith.lang.messages import listed, shown
from gesturesmith.lang.words import ACCIDENTALS, FINGERINGS, HEIGHT_LOOKS, PITCHES, WORDS_ON_PAGE, nearest
from gesturesmith.model.context import UNKNOWN, Context
from gesturesmith.model.looks import PageLook
from gesturesmith.model.piece import Settings
from gesturesmith.model.translations import page_languages
from gesturesmith.source import Span, as_said

if TYPE_CHECKING:  # most files name no profile
    from gesturesmith.instruments.profile import ProfileError

# The result of reading a profile: the instrument, or None with errors.
type Profile = tuple[Instrument | None, tuple[ProfileError, ...]]
DEFAULT_TEMPO = Fraction(60)
_LIKE = 0.8  # required similarity to the name of an instrument
_TOP = Span(1, 1, 2)
DEFAULT_PAPER = "a4"
PAPERS = {  # width and height in mm: ISO 216, ANSI/ASME Y14.1 (8.5 by 11 inches of 25.4 mm)
    "a4": (Fraction(210), Fraction(297)),
    "letter": (Fraction("215.9"), Fraction("279.4")),
}


def _value[T](tree: nodes.File, key: str, kind: type[T]) -> T | None:
    entry = tree.get(key)
    return entry.value if entry is not None and isinstance(entry.value, kind) else None


def _missing(tree: nodes.File, key: str) -> bool:
    """Whether a key is missing, and no misspelled key may have been meant as it."""
    if tree.get(key) is not None:
        return False
    return not any(e.value is None and key in nearest(e.key.text, (key,)) for e in tree.settings)


def _instrument(ctx: Context, tree: nodes.File, profile: Profile | None) -> Instrument | None:
    """The instrument the file names; None after an error."""
    entry = tree.get("instrument")
    if entry is None:
        if _missing(tree, "instrument"):
            ctx.error("missing-instrument", _TOP, names=listed(instruments.names()))
        return None
    if isinstance(entry.value, nodes.Text):
        return _of_profile(ctx, entry.value, profile)
    if not isinstance(entry.value, nodes.Word):
        return None
    word = entry.value
    try:
        return instruments.get(word.text)
    except KeyError:
        near = instruments.called(word.text)
        for like in () if near else nearest(as_said(word.text), instruments.spoken(), _LIKE):
            near = tuple(dict.fromkeys((*near, *instruments.called(like))))[:3]
        there = f"write {listed(near)}" if near else f"there are {listed(_plainest(), 'and')}"
        ctx.error("unknown-instrument", word.span, nearest=near, name=shown(word.text), names=there)
        return None


def _plainest() -> tuple[str, ...]:
    """One instrument of each kind: those without a hyphen in their names."""
    return tuple(name for name in instruments.names() if "-" not in name)


def _of_profile(ctx: Context, path: nodes.Text, profile: Profile | None) -> Instrument | None:
    """An instrument from the user's own file, with all of its errors at once."""
    instrument, errors = profile or (None, ())
    own = path.text.lower()
    unquoted = f" (if the {own} of Gesturesmith is meant, without quotes: `instrument: {own}`)"
    hint = unquoted if own in instruments.names() else ""
    for problem in (e.message for e in errors) if profile is not None else ("it was not read",):
        ctx.error("unreadable-profile", path.span, several=True, path=shown(path.text), why=problem + hint)
    return None if errors else instrument


def _pitches(ctx: Context, tree: nodes.File, instrument: Instrument | None) -> Pitches | None:
    """How pitches are read; None after an error if nobody should guess."""
    word = _value(tree, "pitches", nodes.Word)
    if word is not None:
        return one_of(PITCHES, word.text)
    if instrument is None:
        return None
    if tree.get("pitches") is None and instrument.sounding.cents == 0:
        return "written"
    if _missing(tree, "pitches"):
        entry = tree.get("instrument")
        ctx.error("missing-pitches", entry.span if entry is not None else _TOP, instrument=instrument.name)
    return None


def settings(
    tree: nodes.File, profile: Profile | None, instrument: Instrument | None
) -> tuple[Settings | None, Context]:
    """The settings of a file, and the context to read its blocks in.

    The settings are None if the instrument or `pitches` is unknown; the context then has stand-ins, so that the
    blocks can still be read for other mistakes.
    """
    tempo = _value(tree, "tempo", nodes.Tempo)
    note = tempo.note if tempo is not None else None
    bpm = tempo.bpm.value * (note or 1) if tempo is not None else DEFAULT_TEMPO
    ctx = Context(UNKNOWN, True, bpm)
    ctx.counted = note
    meter = _value(tree, "meter", nodes.TimeSignature)
    ctx.meter = meter_of(meter) if meter is not None else None
    players = _value(tree, "players", nodes.Amount)
    ctx.two_players = players is not None and players.value > 1
    ctx.keyless = tree.get("key") is not None
    ctx.one_part = tree.get(nodes.IN_SCORE) is None
    ctx.languages = page_languages(tree)
    found = instrument if instrument is not None else _instrument(ctx, tree, profile)
    pitches = _pitches(ctx, tree, found)
    if found is not None:
        ctx.instrument = found
    ctx.written = pitches != "sounding"
    ctx.flawed = False
    if found is None or pitches is None:
        return None, ctx
    plain = Settings(instrument=found, pitches=pitches, tempo=bpm, tempo_given=tempo is not None, counted=note)
    words = tempo.words.text if tempo is not None and tempo.words is not None else None
    return _with_looks(tree, replace(plain, tempo_text=words)), ctx


def for_more(ctx: Context) -> Context:
    """The context in which settings without mistakes left a file, for blocks that are read again."""
    return replace(ctx, errors=[], block=None, flawed=False)


def meter_of(node: nodes.TimeSignature) -> tuple[int, int] | None:
    """A time signature, None for `free`."""
    return None if node.beats is None or node.unit is None else (node.beats, node.unit)


def _with_looks(tree: nodes.File, plain: Settings) -> Settings:
    """Add the settings that concern the page."""

    def text(key: str) -> str | None:
        node = _value(tree, key, nodes.Text)
        return node.text if node is not None else None

    def word[W: str](key: str, words: tuple[W, ...], otherwise: W) -> W:
        node = _value(tree, key, nodes.Word)
        return one_of(words, node.text) if node is not None else otherwise

    meter = _value(tree, "meter", nodes.TimeSignature)
    staff = _value(tree, "staff", nodes.Amount)
    wording = _value(tree, "wording", nodes.Names)
    return replace(
        _on_paper(tree, plain),
        title=text("title"),
        subtitle=text("subtitle"),
        composer=text("composer"),
        part=text("part"),
        of_several=tree.get(nodes.IN_SCORE) is not None,
        heights=word("heights", HEIGHT_LOOKS, plain.heights),
        accidentals=word("accidentals", ACCIDENTALS, plain.accidentals),
        fingerings=word("fingerings", FINGERINGS, plain.fingerings),
        words=word("words", WORDS_ON_PAGE, plain.words),
        meter=meter_of(meter) if meter is not None else None,
        staff_mm=staff.value if staff is not None else plain.staff_mm,
        wording=tuple(w.text for w in wording.words) if wording is not None else plain.wording,
    )


def looked(plain: Settings, look: PageLook) -> Settings:
    """The settings of a page that comes from no file."""
    tree = look.on(nodes.File((), ()))
    wording = _value(tree, "wording", nodes.Names)
    spoken = tuple(w.text for w in wording.words) if wording is not None else plain.wording
    return replace(_on_paper(tree, plain), wording=spoken)


def _on_paper(tree: nodes.File, plain: Settings) -> Settings:
    paper = _value(tree, "paper", nodes.Paper)
    if paper is None:
        return plain
    if paper.width_mm is not None and paper.height_mm is not None:
        return replace(plain, paper_mm=(paper.width_mm, paper.height_mm), paper_name="")
    return replace(plain, paper_mm=PAPERS.get(paper.name, plain.paper_mm), paper_name=paper.name)
