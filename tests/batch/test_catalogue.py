"""The invented catalogue: its content, and what a copyist does with it."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest
from batch.conftest import everything, work
from sampling import whole

from gesturesmith.diagnostics import Verdict


@pytest.fixture(scope="module")
def catalogue() -> ModuleType:
    place = Path(__file__).parents[2] / "benchmarks" / "catalogue.py"
    spec = importlib.util.spec_from_file_location("catalogue", place)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_a_seed_gives_the_same_files(catalogue, tmp_path):
    for name, seed in (("one", 1), ("again", 1), ("other", 2)):
        assert catalogue.write(tmp_path / name, seed) == 300
    one = everything(tmp_path / "one")
    assert len(one) == 40
    assert len({Path(place).name for place in one}) == 5
    assert everything(tmp_path / "again") == one
    assert everything(tmp_path / "other") != one


@whole
def test_all_pages_then_one_file_changed_then_again(catalogue, tmp_path, make, setup, fake):
    catalogue.write(tmp_path / "parts")
    texts = {
        p.relative_to(tmp_path / "parts"): p.read_text() for p in sorted((tmp_path / "parts").rglob("*.gesture"))
    }

    def works():
        return [work(text, str(place.with_suffix("")).replace("/", "-")) for place, text in texts.items()]

    first = make(*works())
    verdicts = [g.verdict for d in first for report in d.reports for g in report.gestures]
    assert 10 < verdicts.count(Verdict.NOT_AS_WRITTEN) < 40
    assert [not d.reports[0].readable for d in first].count(True) == 2
    assert all(d.whole for d in first)
    before = everything(setup.output)
    place = next(p for p in texts if p.name == "trombone.gesture")
    texts[place] = texts[place].replace("lasts: 4 beats", "lasts: 3 beats", 1)
    second = make(*works())
    changed = [d.build.name for d in second if d.written]
    assert changed == [f"{str(place.with_suffix('')).replace('/', '-')}.gesture"]
    assert fake.books <= 3
    after = everything(setup.output)
    assert after.keys() == before.keys()
    assert 0 < sum(after[name] != before[name] for name in after) <= 5
