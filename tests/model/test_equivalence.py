"""A written and a sounding file of the same music give the same piece, except for spans."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sampling import sample

from gesturesmith import instruments
from gesturesmith.instruments.base import Instrument
from gesturesmith.model.reading import read
from gesturesmith.source import Source
from gesturesmith.techniques.base import Technique
from gesturesmith.units import Spelling

ALTERS = [Fraction(n, 2) for n in (-2, -1, 0, 1, 2)]


def music(value):
    """A value without spans."""
    if isinstance(value, Instrument | Technique):
        return value.key
    if is_dataclass(value):
        left_out = ("span", "spans", "pitches")
        return {f.name: music(getattr(value, f.name)) for f in fields(value) if f.name not in left_out}
    if isinstance(value, tuple):
        return tuple(map(music, value))
    return value


def names_for(instrument):
    """Written names whose sounding form has a name too, so that both files can be written."""
    letters, octaves = st.sampled_from("CDEFGAB"), st.integers(3, 5)
    names = st.builds(Spelling, letters, st.sampled_from(ALTERS), octaves, st.sampled_from([0, 0, 0, 14, -31]))
    return names.filter(lambda n: instrument.written(instrument.heard(n)) == n)


@st.composite
def files(draw, instrument):
    """The text of one piece, with `{}` for every note; and the written names of its notes."""
    name = names_for(instrument)
    plain = name.filter(lambda n: n.cents == 0)
    notes = draw(st.lists(name, min_size=2, max_size=5))
    lines = draw(st.lists(st.sampled_from([" ~~ ", " -- ", ", ", " __ "]), min_size=4, max_size=4))
    contour = "".join("{}" + line for line, _ in zip(lines, notes[1:], strict=False)) + "{}"
    low, high = sorted(
        draw(st.lists(plain, min_size=2, max_size=2, unique_by=lambda n: n.pitch_cents)),
        key=lambda n: n.pitch_cents,
    )
    start = draw(name)
    move = draw(st.sampled_from(["up M2", "down m3", "up 1", "down 5", "up A4"]))
    text = (
        f"gesture a\n  contour: {contour}, mid, x{{}}\n  band: {{}}..{{}}\n  sing: {{}}, low\n"
        f"passage p\n  play: a, a {move}, {{}} for 2\n"
        "exercises e\n  from: a\n  start: {}\n  stretch: 1, 3/2\n  mirror: yes\n"
        "exercises f\n  from: a\n  band: {}..{}, low\n"
    )
    return text, [*notes, low, low, high, high, start, start, low, high]


@pytest.mark.parametrize("key", sample(["horn", "trumpet", "horn-bb", "tuba"], 3))
@given(data=st.data())
def test_written_and_sounding_files_give_the_same_piece(key, data):
    instrument = instruments.get(key)
    text, written = data.draw(files(instrument))
    made = []
    for pitches, names in (("written", written), ("sounding", [instrument.heard(n) for n in written])):
        body = text.format(*(n.name for n in names))
        reading = read(Source("a.gesture", f"instrument: {key}\npitches: {pitches}\n{body}"))
        # A variant may go beyond the notes that can be written, but then in both files.
        assert {e.rule for e in reading.errors} <= {"cannot-vary"}
        made.append((music(reading.piece), [(e.rule, e.message, e.gesture) for e in reading.errors]))
    assert made[0] == made[1]
