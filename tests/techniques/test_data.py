"""Values of techniques have suitable evidence, and techniques join as they should."""

from __future__ import annotations

import pytest

from gesturesmith import techniques
from gesturesmith.evidence import HOUSE, MEMORY, PRACTICE, Limit, Sourced
from gesturesmith.model.gesture import LEVELS
from gesturesmith.techniques.base import LAYERS, LIMIT_UNITS, Look, Technique

TECHNIQUES = [techniques.get(name) for name in techniques.names()]
LINES = {"straight", "wavy", "broken", "dotted", "arrow", "slur", "none"}


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda t: t.key)
def test_limits_carry_evidence(technique: Technique) -> None:
    for name, limit in technique.limits.items():
        assert limit.unit == LIMIT_UNITS[name]
        assert limit.narrow.source.strip(), name
        if limit.wide is not None:
            assert limit.wide.kind not in (MEMORY, HOUSE)


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda t: t.key)
def test_values_are_of_their_kind(technique: Technique) -> None:
    for name, limit in technique.limits.items():
        value = limit.narrow.value
        if LIMIT_UNITS[name] == "level":
            assert value in LEVELS
        elif name == "registers":
            assert isinstance(value, tuple)
        elif name == "cycles_hz":
            assert 0 < value[0] <= value[1]
        else:
            assert value > 0
    softest, loudest = (technique.limits.get(n) for n in ("softest", "loudest"))
    if softest and loudest:
        assert LEVELS.index(softest.narrow.value) < LEVELS.index(loudest.narrow.value)


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda t: t.key)
def test_effort_and_air_are_given(technique: Technique) -> None:
    for factor in (technique.effort, technique.flow):
        assert factor is not None
        assert 0 < factor.value <= 3
        assert factor.source.strip()
    for source in technique.sources:
        assert str(source.value).strip()
        assert source.source.strip()
    assert technique.sources or technique.layer == "none"


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda t: t.key)
def test_points_and_lines_agree(technique: Technique) -> None:
    fewest, most = technique.points
    assert fewest >= 1
    assert most is None or most >= fewest
    assert set(technique.lines) <= LINES
    if technique.needs_line:
        assert fewest >= 2
        assert not technique.lines or set(technique.lines) - {"none", "slur"}
    if technique.pitched == "none":
        assert technique.lines == ("none",)
        assert technique.tone == "none"


def test_what_tires_says_so() -> None:
    tiring = {t.key for t in TECHNIQUES if t.tiring}
    assert {"flutter-tongue", "growl", "shake", "lip-trill", "split-attack", "split-tone", "multiphonic"} <= tiring
    assert {t.key for t in TECHNIQUES if t.loud} == {"rip", "bells-up", "brassy", "split-attack"}
    assert not {"ordinary", "air", "kiss", "valve-clicks"} & tiring
    for technique in TECHNIQUES:
        if technique.effort is not None and technique.effort.value >= 1.4:
            assert technique.tiring, technique.key


def test_the_hand_and_the_mute_are_where_they_are_needed() -> None:
    assert {t.key: t.bell_hand for t in TECHNIQUES if t.bell_hand} == {"stopped": "stopped", "half-stopped": "half"}
    assert [t.key for t in TECHNIQUES if t.takes_mute] == ["muted"]
    assert [t.key for t in TECHNIQUES if t.sings] == ["multiphonic"]
    assert {t.key for t in TECHNIQUES if t.trill} == {
        "tremolo",
        "valve-trill",
        "timbre-trill",
        "lip-trill",
        "shake",
        "false-fingering",
    }
    assert {t.key for t in TECHNIQUES if t.needs == "slide"} == {"slide-gliss", "against-the-grain"}


def made(**changes: object) -> Technique:
    """A minimal technique, for testing refusals."""
    values: dict[str, object] = {
        "key": "trial",
        "layer": "lip",
        "moves": "lip",
        "look": Look(),
        "title": {"en": "Trial"},
        "texts": {"en": "Try it."},
    }
    return Technique(**{**values, **changes})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "changes",
    [
        {"layer": "edges"},
        {"path": "sideways"},
        {"pitched": "nearly"},
        {"tone": "some"},
        {"limits": {"shortest_ms": Limit(Sourced(1, HOUSE, "x"), unit="s")}},
        {"limits": {"fastest": Limit(Sourced(1, HOUSE, "x"), unit="1/s")}},
    ],
)
def test_a_technique_that_makes_no_sense_cannot_be_made(changes: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="trial"):
        made(**changes)


@pytest.mark.parametrize("kind", [MEMORY, HOUSE])
def test_a_weak_value_cannot_stand_where_it_would_refuse(kind: object) -> None:
    with pytest.raises(ValueError, match="may not refuse"):
        Limit(Sourced(1, PRACTICE, "x"), Sourced(2, kind, "x"), unit="ms")  # type: ignore[arg-type]


def test_layers_are_in_the_order_of_the_language() -> None:
    assert LAYERS == (
        "none", "motion", "edge-in", "edge-off", "valves", "bell", "cover", "stem", "tone", "tongue", "voice",
        "lip", "attack",
    )  # fmt: skip
