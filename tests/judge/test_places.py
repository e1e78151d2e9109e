"""Places in words."""

import pytest

from gesturesmith.judge.places import ordinal


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (1, "first"),
        (3, "third"),
        (10, "tenth"),
        (11, "11th"),
        (12, "12th"),
        (21, "21st"),
        (102, "102nd"),
        (113, "113th"),
    ],
)
def test_ordinals(number, words):
    assert ordinal(number) == words
