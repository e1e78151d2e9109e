"""Users' profiles: all errors at once, nothing quoted from files that are not profiles, and lossless writing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from handbook import snippets
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gesturesmith import instruments
from gesturesmith.evidence import Kind
from gesturesmith.instruments.profile import load, to_toml

PLAYER = """
instrument_profile = 1
player = "second horn"
based_on = "horn"
name = "my horn"

[limits]
lip_correction_cents = { narrow = 30 }
sing_cents = { narrow = [5000, 7000], kind = "practice", source = "measured in a lesson" }
"""


def write(folder: Path, text: str | bytes, name: str = "my.toml") -> Path:
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def messages(path: Path) -> list[str]:
    instrument, errors = load(path)
    assert instrument is None
    assert errors
    return [e.message for e in errors]


@pytest.mark.parametrize("name", instruments.names())
def test_printed_and_read_again_it_is_the_same(name: str, tmp_path: Path) -> None:
    instrument = instruments.get(name)
    found, errors = load(write(tmp_path, to_toml(instrument)))
    assert not errors
    assert found == instrument


def test_a_player_changes_only_what_he_says(tmp_path: Path) -> None:
    horn = instruments.get("horn")
    found, errors = load(write(tmp_path, PLAYER))
    assert not errors
    assert found is not None
    assert found.name == "my horn"
    assert found.limits["lip_correction_cents"].narrow.value == 30
    assert "this player" in found.limits["lip_correction_cents"].narrow.source
    assert found.limits["sing_cents"].narrow.value == (5000, 7000)
    assert found.limits["in_tune_cents"] == horn.limits["in_tune_cents"]
    assert found.tubes == horn.tubes
    assert found.chart == horn.chart


def test_a_profile_is_no_player(tmp_path: Path) -> None:
    found, errors = load(write(tmp_path, PLAYER.replace('player = "second horn"\n', "")))
    assert not errors
    assert found is not None
    assert found.limits["lip_correction_cents"].narrow.source == "the profile"
    assert not any(limit.narrow.kind is Kind.PLAYER for limit in found.limits.values())


def test_every_value_a_player_sets_is_said_to_be_the_players(tmp_path: Path) -> None:
    text = PLAYER.replace("[limits]", 'usual_range = { low = "C2", high = "D5", source = "my best day" }\n[limits]')
    found, errors = load(write(tmp_path, text))
    assert not errors
    assert found is not None
    own = {name for name, limit in found.limits.items() if limit.narrow.kind is Kind.PLAYER}
    assert own == {"lip_correction_cents", "sing_cents"}
    assert found.limits["sing_cents"].narrow.source == "this player, second horn: measured in a lesson"
    assert found.usual_range.source == "this player, second horn: my best day"
    assert found.tubes == instruments.get("horn").tubes
    assert load(write(tmp_path, to_toml(found), "again.toml"))[0] == found


def test_a_value_of_a_player_is_of_no_other_kind(tmp_path: Path) -> None:
    """A player's own statement is neither a measurement nor a treatise, whatever the file claims."""
    text = PLAYER.replace("[limits]", '[limits]\nbreath_litres = { narrow = 4, kind = "published" }')
    found, errors = load(write(tmp_path, text))
    assert found is None
    assert [(e.key, e.allowed) for e in errors] == [("limits.breath_litres.kind", "player, practice")]


def test_a_player_of_an_instrument_of_ones_own(tmp_path: Path) -> None:
    write(tmp_path, 'instrument_profile = 1\nbased_on = "trumpet"\nname = "old trumpet"\n', "old.toml")
    text = 'instrument_profile = 1\nplayer = ""\nbased_on = "old.toml"\n[limits]\nbreath_litres = { narrow = 4 }\n'
    found, errors = load(write(tmp_path, text))
    assert not errors
    assert found is not None
    assert found.name == "old trumpet"
    assert found.limits["breath_litres"].narrow.source == "this player"


def test_the_wide_reading_stays_where_it_can(tmp_path: Path) -> None:
    horn = instruments.get("horn")
    base = horn.limits["lip_correction_cents"]
    assert base.wide is not None
    for narrow, stays in ((base.narrow.value - 20, True), (base.wide.value, True), (base.wide.value + 1, False)):
        text = (
            f'instrument_profile = 1\nbased_on = "horn"\n[limits]\nlip_correction_cents = {{ narrow = {narrow} }}\n'
        )
        found, errors = load(write(tmp_path, text))
        assert not errors
        assert found is not None
        assert found.limits["lip_correction_cents"].wide == (base.wide if stays else None)
        assert found.limits["lip_correction_cents"].wide_means == (base.wide_means if stays else "")


def test_the_profiles_of_the_language_page(tmp_path: Path) -> None:
    page = (Path(__file__).parents[2] / "docs" / "language.md").read_text("utf-8")
    blocks = [snippet.text for snippet in snippets.snippets(page) if snippet.kind == "toml"]
    assert len(blocks) >= 3
    for block in blocks:
        found, errors = load(write(tmp_path, block))
        assert not errors
        assert found is not None
        assert any(limit.narrow.kind is Kind.PLAYER for limit in found.limits.values()) == ("player" in block)


def test_the_third_slide_is_a_setting(tmp_path: Path) -> None:
    """check_values.csv: with 2-3 exact, valve 3 alone is 16.3 cents flat and 2-3 in tune."""
    text = 'instrument_profile = 1\nbased_on = "horn"\nthird_slide = { tuned = "2-3" }\n'
    found, errors = load(write(tmp_path, text))
    assert not errors
    assert found is not None
    assert found.tube("F 2-3").fundamental_cents == pytest.approx(2500, abs=0.001)
    assert found.tube("F 3").fundamental_cents == pytest.approx(2600 - 16.302, abs=0.001)


def test_a_profile_may_be_based_on_another(tmp_path: Path) -> None:
    write(tmp_path, PLAYER, "first.toml")
    found, errors = load(write(tmp_path, 'instrument_profile = 1\nbased_on = "first.toml"\nname = "second"\n'))
    assert not errors
    assert found is not None
    assert (found.name, found.limits["lip_correction_cents"].narrow.value) == ("second", 30)


def test_profiles_in_a_circle(tmp_path: Path) -> None:
    write(tmp_path, 'instrument_profile = 1\nbased_on = "b.toml"\n', "a.toml")
    path = write(tmp_path, 'instrument_profile = 1\nbased_on = "a.toml"\n', "b.toml")
    assert any("based on each other" in m for m in messages(path))


def test_all_errors_at_once_with_line_key_and_what_is_allowed(tmp_path: Path) -> None:
    text = """instrument_profile = 1
based_on = "horn"
nmae = "my horn"
kind = "keys"
written_to_sounding = "P5 sideways"
usual_range = { low = "C5", high = "C4" }

[limits]
lip_correction_cents = { narrow = -4 }
sing_cents = { narrow = [7000, 5000] }
lip_corection_cents = { narrow = 4 }

[chart]
"H4" = "F 0"
"C4" = "F 5"

[[registers]]
name = "lowish"
low = "C4"
high = "C3"
"""
    _, errors = load(write(tmp_path, text))
    found = {(e.line, e.key) for e in errors}
    assert {
        (3, "nmae"), (4, "kind"), (5, "written_to_sounding"), (6, "usual_range.high"),
        (9, "limits.lip_correction_cents.narrow"), (10, "limits.sing_cents.narrow"),
        (11, "limits.lip_corection_cents"), (14, "chart.H4"), (15, "chart.C4"),
        (18, "registers.name"), (20, "registers.high"),
    } <= found  # fmt: skip
    assert all(e.allowed for e in errors)
    assert next(e for e in errors if e.key == "nmae").allowed == "name, names"
    assert [e.line for e in errors] == sorted(e.line for e in errors)


SECRET = "hunter2"


@pytest.mark.parametrize(
    "content",
    [
        "",
        f"password = '{SECRET}'\n",
        f"root:x:0:{SECRET}\n",
        f"{SECRET}\x00".encode(),
        b"\xff\xfe" + SECRET.encode(),
    ],
)
def test_what_is_no_profile_is_not_quoted(content: str | bytes, tmp_path: Path) -> None:
    found = messages(write(tmp_path, content))
    assert len(found) == 1
    assert "not an instrument profile" in found[0]
    assert SECRET not in found[0]


def test_a_broken_profile_names_the_line_only(tmp_path: Path) -> None:
    found = messages(write(tmp_path, f"instrument_profile = 1\nname = = {SECRET}\n"))
    assert found == ["line 2: not valid TOML"]


def test_only_files_of_sensible_size(tmp_path: Path) -> None:
    assert messages(tmp_path) == ["not a regular file"]
    assert messages(tmp_path / "missing.toml") == ["no such file"]
    assert "256 kB" in messages(write(tmp_path, b"#" * (256 * 1024 + 1)))[0]
    assert messages(Path("/dev/zero")) == ["not a regular file"]
    assert messages(Path("nul\x00l.toml")) == ["cannot be opened"]


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.toml")
    assert messages(tmp_path / "pipe.toml") == ["not a regular file"]


def test_deep_nesting_and_endless_numbers(tmp_path: Path) -> None:
    head = "instrument_profile = 1\n"
    assert messages(write(tmp_path, head + "a = " + "[" * 50000))
    assert messages(write(tmp_path, head + "a = " + "9" * 50000))


@pytest.mark.parametrize(
    "value", ["1", "'x'", "[]", "[1]", "{}", "true", "1e400", "nan", "-1", "1979-05-27", "[[1]]"]
)
def test_a_value_of_the_wrong_sort_is_an_error_or_harmless(value: str, tmp_path: Path) -> None:
    """Every key with every type of value: never an exception."""
    lines = to_toml(instruments.get("horn")).splitlines()
    keys = [line.split(" = ")[0] for line in lines if " = " in line and not line.startswith(("#", "name", '"'))]
    for key in sorted(set(keys[:14])):
        load(write(tmp_path, f'instrument_profile = 1\nbased_on = "horn"\n{key} = {value}\n'))
    for table in ("limits", "chart", "hand_chart", "partials"):
        load(write(tmp_path, f'instrument_profile = 1\nbased_on = "horn"\n{table} = {value}\n'))
        load(
            write(
                tmp_path, f'instrument_profile = 1\nbased_on = "horn"\n[{table}]\n"F 0" = {value}\nC4 = {value}\n'
            )
        )
    for table in ("sides", "registers"):
        load(
            write(
                tmp_path, f'instrument_profile = 1\nbased_on = "horn"\n[[{table}]]\nname = {value}\nlow = {value}\n'
            )
        )


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(st.binary(max_size=400))
def test_arbitrary_bytes_are_an_error_never_a_fault(tmp_path: Path, data: bytes) -> None:
    for content in (data, b"instrument_profile = 1\n" + data):
        instrument, errors = load(write(tmp_path, content))
        assert instrument is None
        assert errors


def test_a_part_name_of_its_own_stands_in_every_language(tmp_path: Path) -> None:
    base = 'instrument_profile = 1\nbased_on = "trumpet"\n'
    for own, german, french in (
        ("", "Trompete in B", "Trompette en si bémol"),
        ('part_name = "First signal"\n', "First signal", "First signal"),
        ('part_name = "Signal"\npart_names = { fr = "Appel" }\n', "Signal", "Appel"),
    ):
        found, errors = load(write(tmp_path, base + own))
        assert not errors
        assert found is not None
        assert (found.part_in("de"), found.part_in("fr")) == (german, french)


def test_a_language_there_is_not_is_told(tmp_path: Path) -> None:
    text = 'instrument_profile = 1\nbased_on = "trumpet"\npart_names = { nl = "Trompet", de = 3 }\n'
    found = " ".join(messages(write(tmp_path, text)))
    assert "part_names.nl" in found
    assert "part_names.de" in found
