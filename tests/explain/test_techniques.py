"""The explanation of a technique."""

import pytest

from gesturesmith import techniques
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
    assert " ".join(technique.texts["en"].split()) in joined


def test_there_is_nothing_to_say_of_what_is_not_there():
    with pytest.raises(KeyError):
        explain_technique("no-such-technique")
