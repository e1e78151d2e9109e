"""The explanation of a technique."""

from dataclasses import fields

import pytest

from gesturesmith import techniques
from gesturesmith.evidence import Sourced
from gesturesmith.explain.techniques import explain_technique


@pytest.mark.parametrize("key", techniques.names())
def test_every_technique_can_be_explained(key):
    technique = techniques.get(key)
    text = explain_technique(key)
    assert text.startswith(technique.title["en"])
    assert all(len(line) <= 96 or " " not in line.strip()[12:] for line in text.split("\n")[1:])
    joined = " ".join(text.split())
    for source in technique.sources:
        assert source.source in joined
    for limit in technique.limits.values():
        assert limit.narrow.source in joined
    for name in (f.name for f in fields(technique.sound)):
        heard = getattr(technique.sound, name)
        if isinstance(heard, Sourced):
            value = 100 * heard.value if name in ("air", "edge_share") else heard.value
            assert f": {value:g} " in joined
            assert heard.source in joined
    assert " ".join(technique.texts["en"].split()) in joined


def test_there_is_nothing_to_say_of_what_is_not_there():
    with pytest.raises(KeyError):
        explain_technique("no-such-technique")
