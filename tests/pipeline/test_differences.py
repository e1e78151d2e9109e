"""Signs that files use differently are reported with the files: two by name, more by the first name and a
number."""

from __future__ import annotations

import pytest

from gesturesmith.pipeline.differences import differences
from gesturesmith.pipeline.types import SignUsage


@pytest.mark.parametrize(
    ("files", "said"),
    [
        (["a"], "cross: a: one way; z: another"),
        (["a", "b"], "cross: a, b: one way; z: another"),
        (["a", "b", "c"], "cross: a and 2 others: one way; z: another"),
        (["a", "a", "b"], "cross: a, b: one way; z: another"),
    ],
)
def test_files_are_named_or_counted(files, said):
    ways = [*(SignUsage(file=file, sign="cross", way="one way") for file in files)]
    assert differences(ways) == ()
    assert differences([*ways, SignUsage(file="z", sign="cross", way="another")]) == (said,)
