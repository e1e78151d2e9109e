"""Every instrument: charts its tubes can play, registers and ranges in order, limits with evidence."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from pathlib import Path

import abjad
import pytest
from music21 import instrument as music21_instrument

from gesturesmith import instruments
from gesturesmith.acoustics.series import nearest_partial, partial_cents
from gesturesmith.acoustics.tubing import slide_position
from gesturesmith.evidence import Limit
from gesturesmith.units import Spelling, spell

NAMES = instruments.names()


def written(letter: str, octave: int, alter: int = 0) -> Spelling:
    return Spelling(letter, Fraction(alter), octave)


def test_the_instruments_there_are() -> None:
    wanted = (
        "horn horn-f horn-bb natural-horn trumpet trumpet-c cornet flugelhorn trombone trombone-f bass-trombone "
        "euphonium tuba tuba-bb tuba-eb tuba-f"
    )
    assert set(wanted.split()) <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_data_are_sound(name: str) -> None:
    instrument = instruments.get(name)
    assert instrument.key == name
    usual, widest = instrument.usual_range.value, instrument.widest_range.value
    assert widest[0] <= usual[0] < usual[1] <= widest[1]
    assert instrument.widest_range.kind.may_refuse
    lows = [r.low.pitch_cents for r in instrument.registers]
    assert lows == sorted(lows)
    assert all(r.low.pitch_cents < r.high.pitch_cents for r in instrument.registers)
    for below, above in zip(instrument.registers, instrument.registers[1:], strict=False):
        assert above.low.pitch_cents - below.high.pitch_cents in (0, 100)
    assert len({t.name for t in instrument.tubes}) == len(instrument.tubes)
    for tube in instrument.tubes:
        low, high = tube.partials
        assert 1 <= tube.widest_partials[0] <= low <= high <= tube.widest_partials[1]
        assert 0.7 < tube.length_m < 11
    assert instrument.clefs[-1][1] <= -100000


@pytest.mark.parametrize("name", NAMES)
def test_the_chart_is_playable(name: str) -> None:
    """Each standard fingering gives its note within 60 cents: 1-2-3 is 54 sharp, and partials deviate; or within
    what a drawn valve slide brings down.
    """
    instrument = instruments.get(name)
    drawn = instrument.limits.get("valve_slide_cents")
    for chart, shift in ((instrument.chart, 0), (instrument.hand_chart, 0)):
        for pitch, tube_name in chart.items():
            tube = instrument.tube(tube_name)
            assert tube is not None, tube_name
            sounding = float(pitch + instrument.sounding.cents) + shift
            n = nearest_partial(sounding, tube.fundamental_cents, *tube.widest_partials)
            error = tube.fundamental_cents + partial_cents(n) - sounding
            most = drawn.narrow.value if drawn is not None and error > 0 else 60
            assert abs(error) <= most, f"{spell(Fraction(pitch)).name} on {tube_name}: {error:.0f} cents"


@pytest.mark.parametrize("name", NAMES)
def test_every_limit_says_where_it_is_from(name: str) -> None:
    for limit_name, limit in instruments.get(name).limits.items():
        assert isinstance(limit, Limit), limit_name
        assert limit.narrow.source, limit_name
        if limit.wide is not None:
            assert limit.wide.kind.may_refuse
            assert limit.wide.source, limit_name


def test_a_wide_reading_never_refuses_what_the_narrow_one_allows() -> None:
    """Minimum limits have their wide reading below, all others above."""
    from_below = {
        "hand_out_lowest_cents", "stopped_lowest_cents", "half_stopped_lowest_cents", "response_periods",
        "harmonic_gliss_min_partials", "breath_flow_least",
    }  # fmt: skip
    for name in NAMES:
        for limit_name, limit in instruments.get(name).limits.items():
            if limit.wide is None or isinstance(limit.narrow.value, tuple | str):
                continue
            narrow, wide = limit.narrow.value, limit.wide.value
            assert wide <= narrow if limit_name in from_below else wide >= narrow, f"{name}: {limit_name}"


def test_the_double_horn_has_sixteen_tubes_of_twelve_lengths() -> None:
    """bwhisperer.com Blog 19: twelve lengths and four alternatives."""
    tubes = instruments.get("horn").tubes
    assert len(tubes) == 16
    nominal = {round(t.fundamental_cents / 100 - 0.3) for t in tubes}  # combinations are up to 54 cents sharp
    assert len(nominal) == 12


def test_the_open_sides_have_the_length_the_maker_gives() -> None:
    """Yamaha, horn mechanism: about 370 cm for F, 275 for B-flat; the acoustic length is some 6 per cent more."""
    horn = instruments.get("horn")
    assert horn.tube("F 0").length_m == pytest.approx(3.70, rel=0.08)
    assert horn.tube("Bb 0").length_m == pytest.approx(2.75, rel=0.08)


# music21 10.5.1, where None means no transposition.
@pytest.mark.parametrize(
    ("name", "theirs"),
    [
        ("horn", "Horn"), ("trumpet", "Trumpet"), ("trombone", "Trombone"), ("bass-trombone", "BassTrombone"),
        ("tuba", "Tuba"),
    ],
)  # fmt: skip
def test_transposition_as_music21(name: str, theirs: str) -> None:
    interval = getattr(music21_instrument, theirs)().transposition
    ours = instruments.get(name).sounding
    assert ours.cents == (100 * interval.semitones if interval is not None else 0)
    assert ours.steps == (interval.diatonic.generic.staffDistance if interval is not None else 0)


# music21 10.5.1, lowestNote, a written pitch: one reading of the bottom; where readings differ ours lies no higher.
@pytest.mark.parametrize(
    ("name", "theirs"),
    [
        ("horn", "Horn"), ("trumpet", "Trumpet"), ("trombone", "Trombone"), ("bass-trombone", "BassTrombone"),
        ("tuba", "Tuba"),
    ],
)  # fmt: skip
def test_nothing_music21_has_is_refused(name: str, theirs: str) -> None:
    instrument = instruments.get(name)
    lowest = 100 * getattr(music21_instrument, theirs)().lowestNote.ps + instrument.sounding.cents
    assert instrument.widest_range.value[0] <= lowest


def test_the_widest_reading_of_the_horn_is_one_a_source_gives() -> None:
    """Down to written C2 (music21); up to the highest partial demonstrated in bwhisperer.com, Blog 19. Another of
    its pages has one more on the F horn, 19, a semitone above."""
    horn = instruments.get("horn")
    low = music21_instrument.Horn().lowestNote.ps
    highest = max(t.fundamental_cents + partial_cents(t.widest_partials[1]) for t in horn.tubes if t.valves == "0")
    assert horn.widest_range.value == (100 * low - 700, 7900)
    assert highest == pytest.approx(8000, abs=5)


# abjad 3.31 pitch ranges, one reading of the compass; sounding.
@pytest.mark.parametrize(
    ("name", "theirs"),
    [
        ("horn", "FrenchHorn"), ("trumpet-c", "Trumpet"), ("trombone", "TenorTrombone"),
        ("bass-trombone", "BassTrombone"), ("tuba", "Tuba"),
    ],
)  # fmt: skip
def test_nothing_abjad_has_is_refused(name: str, theirs: str) -> None:
    pitch_range = getattr(abjad, theirs)().pitch_range
    low, high = instruments.get(name).widest_range.value
    assert low <= 6000 + 100 * pitch_range.start_pitch().number()
    assert 6000 + 100 * pitch_range.stop_pitch().number() <= high


@pytest.mark.parametrize(
    ("name", "theirs"),
    [("horn", "FrenchHorn"), ("trumpet-c", "Trumpet"), ("tuba", "Tuba")],
)
def test_the_usual_range_is_the_published_one(name: str, theirs: str) -> None:
    pitch_range = getattr(abjad, theirs)().pitch_range
    low, high = pitch_range.start_pitch().number(), pitch_range.stop_pitch().number()
    assert instruments.get(name).usual_range.value == (6000 + 100 * low, 6000 + 100 * high)


@pytest.mark.parametrize(
    ("name", "lowest"),
    [
        ("trombone", "Ab1"),  # Berlioz, Traité d'instrumentation: Bb1, A1, Ab1; G1 very difficult
        ("trombone-f", "Ab1"),
        ("bass-trombone", "F1"),  # spiegato.com, What is the range of a trombone
        ("euphonium", "Bb1"),  # Wikipedia, Pitch of brass instruments: whole-tube
    ],
)
def test_pedal_notes_of_whole_tube_instruments_are_usual(name: str, lowest: str) -> None:
    note = written(lowest[0], int(lowest[-1]), -1 if "b" in lowest else 0)
    assert instruments.get(name).usual_range.value[0] == note.pitch_cents


def test_the_range_table_agrees() -> None:
    """check_values.csv, topic range: written F#2 to C6 for the horn, sounding B1 to F5."""
    table = Path(__file__).parent.parent / "reference" / "check_values.csv"
    with table.open(encoding="utf-8", newline="") as file:
        row = next(r for r in csv.DictReader(file) if r["quantity"] == "horn sounding range")
    assert row["value"] == "B1-F5 (written F#2-C6)"
    horn = instruments.get("horn")
    low, high = (horn.written(spell(Fraction(c))).name for c in horn.usual_range.value)
    assert (low, high) == ("F#2", "C6")


def test_a_horn_part_stands_a_fifth_above_the_sound() -> None:
    horn = instruments.get("horn")
    assert horn.heard(written("C", 4)).name == "F3"
    assert horn.written(written("B", 3, -1)).name == "F4"


def test_registers_reach_on_without_end() -> None:
    horn = instruments.get("horn")
    assert horn.register_of(0).name == "low"
    assert horn.register_of(20000).name == "top"
    assert horn.register_of(written("G", 4).pitch_cents - 700).name == "middle"
    assert horn.register_of(written("A", 4, -1).pitch_cents - 700).name == "high"


# OEIS A309909, citing Kennan (1952), pp. 136-141: lowest positions, pedal notes E1-Bb1, then from E2 to A5.
A309909 = [7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 7, 6, 5, 4, 3, 2, 1, 5, 4, 3, 2, 1, 4, 3, 2, 1, 3, 2, 1, 3, 2]
A309909 += [3, 2, 1, 2, 1, 2, 1, 2, 2, 1, 3, 2, 3, 2]


def test_lowest_slide_positions_are_those_of_oeis_a309909() -> None:
    """By enumeration: partials 1 to 16 without 13 and 15, a position no shorter than first."""
    found = []
    for pitch in [*range(2800, 3500, 100), *range(4000, 4000 + 100 * (len(A309909) - 7), 100)]:
        positions = [slide_position(3400, pitch - partial_cents(n)) for n in range(1, 17) if n not in (13, 15)]
        found.append(min(max(1, int(p + 0.5)) for p in positions if 0.8 <= p <= 7.1))
    assert found == A309909


@pytest.mark.parametrize(
    ("name", "found"),
    [("F 1-2", ["F 1-2"]), ("1-2", ["F 1-2", "Bb 1-2"]), ("Bb 0", ["Bb 0"]), ("4", []), ("F", []), ("", [])],
)
def test_fingerings_by_name(name: str, found: list[str]) -> None:
    assert [t.name for t in instruments.get("horn").tubes_named(name)] == found


@pytest.mark.parametrize(
    ("name", "found"),
    [("3", ["3"]), ("short 2", ["2"]), ("T 2", ["T 2"]), ("T 7", []), ("8", []), ("T short 3", ["T 3"])],
)
def test_positions_by_name(name: str, found: list[str]) -> None:
    assert [t.name for t in instruments.get("trombone-f").tubes_named(name)] == found


# Names as scores and parts of each language print them; H is B natural and B is B-flat in German.
PART_NAMES = {
    "trumpet": ("Trumpet in B♭", "Trompete in B", "Trompette en si bémol", "Tromba in si bemolle"),
    "horn": ("Horn in F", "Horn in F", "Cor en fa", "Corno in fa"),
    "tuba-eb": ("Tuba in E♭", "Tuba in Es", "Tuba en mi bémol", "Tuba in mi bemolle"),
    "natural-horn-bb-basso": (
        "Horn in B♭ basso",
        "Horn in tief B",
        "Cor en si bémol grave",
        "Corno in si bemolle basso",
    ),
    "trombone": ("Trombone", "Posaune", "Trombone", "Trombone"),
}


@pytest.mark.parametrize("name", PART_NAMES)
def test_a_part_is_named_in_the_language_of_its_page(name: str) -> None:
    found = tuple(instruments.get(name).part_in(language) for language in ("en", "de", "fr", "it"))
    assert found == PART_NAMES[name]


@pytest.mark.parametrize("name", instruments.names())
def test_every_part_has_a_name_in_every_language(name: str) -> None:
    from gesturesmith import wording

    found = instruments.get(name)
    assert {"en", *found.part_names} == set(wording.languages())
    for text in (found.part_name, *found.part_names.values()):
        assert text
        assert not re.search(r"\b[A-H]b\b|[A-H]-flat", text), "a flat sign, or a word"


def test_every_limit_is_measured_against_somewhere() -> None:
    """A limit that no rule reads would be explained, and accepted in a player's file, without any effect."""
    package = Path(instruments.__file__).parent.parent
    rooms = ("rules", "realise", "difficulty")
    text = "".join(p.read_text() for room in rooms for p in (package / room).rglob("*.py"))
    text += (package / "instruments" / "base.py").read_text()  # for `lip_limit`
    for name in {name for key in NAMES for name in instruments.get(key).limits}:
        stem = re.sub(r"(_(low|middle|high|top))?(_(pp|mf|ff))?$", "", name)
        assert f'"{stem}' in text or f'"{name}"' in text or f'"{stem.removesuffix("_per_s")}"' in text, name
