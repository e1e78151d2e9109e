"""A format without LilyPond takes one file: everything it writes comes from the scores of an item."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from gesturesmith import writers
from gesturesmith.pipeline import Options, compile_text
from gesturesmith.pipeline.sheet import SheetOptions, compile_sheet
from gesturesmith.score.marks import LineStart
from gesturesmith.source import Source
from gesturesmith.writers.base import Item, Writer, is_ours, text_with_checksum

HARBOUR = """pitches: written
part horn-1 "Horn 1"
  instrument: horn
part trombone "Trombone"
  instrument: trombone
  short: "Trb."
passage opening
  horn-1: C5 for 4
  trombone: F3 for 4
"""
DEMO = Path(__file__).parents[2] / "docs" / "demo" / "fog-signals.gesture"


def _finish(item: Item, _: bytes) -> bytes:
    """The time, pitch and outgoing line of every event."""
    told = []
    for score in item.scores:
        for event in score.events:
            if event.head is not None and event.head.spelling is not None:
                lines = [mark.style for mark in event.marks if isinstance(mark, LineStart)]
                told.append(f"{score.name} {event.start} {event.head.spelling.name} {' '.join(lines)}".strip())
    return text_with_checksum("#", "\n".join([*told, ""]))


WRITER = Writer(key="txt", about="notes", kinds=("page", "snippet"), engraved=False, finish=_finish)


def _demo() -> tuple[Item, ...]:
    return compile_text(Source(DEMO.name, DEMO.read_text("utf-8")), Options(folder=DEMO.parent)).items


def test_a_writer_needs_nothing_but_scores():
    items = _demo()
    outputs = {output.place.name: output.data for output in WRITER.outputs(items, {})}
    assert len(outputs) == len(items) > 3
    assert all(is_ours(data) for data in outputs.values())
    (page,) = (item for item in items if item.kind == "page")
    each = [outputs[f"{i.place.name}.txt"].split(b"\n")[1:-1] for i in items if i.kind == "snippet"]
    assert outputs[f"{page.place.name}.txt"].split(b"\n")[1:-1] == [line for lines in each for line in lines]
    assert any(line.endswith(b"wavy") for lines in each for line in lines)


def test_every_item_of_music_has_its_scores():
    source = Source(DEMO.name, DEMO.read_text("utf-8"))
    made = [
        compile_text(source, Options(folder=DEMO.parent)),
        compile_sheet((source,), SheetOptions(folder=DEMO.parent)),
    ]
    for outcome in made:
        assert outcome.items
        for item in outcome.items:
            assert tuple(score.name for score in item.scores) == item.excerpts


def test_the_lines_of_a_sheet_have_their_numbers_and_not_our_names():
    source = Source(DEMO.name, DEMO.read_text("utf-8"))
    (sheet, *_) = compile_sheet((source,), SheetOptions(folder=DEMO.parent)).items
    assert [score.title for score in sheet.scores] == [f"{n}." for n in range(1, len(sheet.scores) + 1)]
    document = writers.get("musicxml").finish(sheet, b"").decode()
    assert ">1.</words>" in document
    assert f">{sheet.scores[0].name}</words>" not in document


def test_what_has_no_music_has_no_score_to_write():
    (page,) = (item for item in _demo() if item.kind == "page")
    scored = replace(WRITER, scored=True)
    assert scored.takes(page)
    assert not scored.takes(replace(page, systems=()))
    assert WRITER.takes(replace(page, systems=()))


def test_the_lines_of_a_system_know_their_part():
    source = Source("harbour", HARBOUR)
    (score,) = (i for i in compile_text(source, Options(stem="harbour")).items if i.place.name == "harbour")
    (system,) = score.systems
    assert [(staff.name, staff.short, staff.settings.instrument.key) for staff in system] == [
        ("Horn 1", "Hn.", "horn"),
        ("Trombone", "Trb.", "trombone"),
    ]
    assert [staff.settings.instrument.sound for staff in system] == ["brass.french-horn", "brass.trombone.tenor"]
