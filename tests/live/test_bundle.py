"""The editor in the page is what its sources give, with their licences; and nothing in it asks anybody else."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest
import timing
from sampling import whole

from gesturesmith.live.server import ASSETS

WEB = Path(__file__).parents[2] / "web"


def test_every_package_in_it_is_named_with_its_licence():
    text = (ASSETS / "vendor.txt").read_text("utf-8")
    lock = json.loads((WEB / "package-lock.json").read_text("utf-8"))["packages"]
    named = dict(re.findall(r"^((?:@[\w-]+/)?[\w-]+) (\d\S*) \(MIT\)$", text, re.MULTILINE))
    asked = json.loads((WEB / "package.json").read_text("utf-8"))["dependencies"]
    assert set(asked) <= set(named)
    for name, version in named.items():
        assert lock[f"node_modules/{name}"]["version"] == version
    assert text.count("Permission is hereby granted") == len(named)


def test_the_lock_names_no_place():
    """It would be that of whoever wrote it."""
    for name in ("package.json", "package-lock.json", "build.mjs", "vendor.js"):
        text = (WEB / name).read_text("utf-8")
        assert not re.search(r"https?://|\"resolved\"", text), name


def test_no_part_of_the_page_asks_another_address_or_makes_code_of_text():
    for asset in ASSETS.iterdir():
        text = asset.read_text("utf-8")
        places = set(re.findall(r"https?://[^\s\"'`)]+", text)) if asset.suffix != ".txt" else set()
        assert places <= {"http://www.w3.org/2000/svg"}, asset.name
        if asset.suffix == ".js" and asset.name != "vendor.js":
            assert not re.search(
                r"\beval\(|new Function|innerHTML|outerHTML|document\.write|insertAdjacentHTML", text
            )


@whole
@pytest.mark.skipif(shutil.which("npm") is None, reason="npm is not installed: the editor is not bundled again")
def test_it_is_built_again_byte_for_byte(tmp_path):
    folder = tmp_path / "web"
    shutil.copytree(WEB, folder, ignore=shutil.ignore_patterns("node_modules"))
    npm = timing.run(["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund"], cwd=folder, text=True)
    if npm.returncode:
        pytest.skip("npm cannot get the packages: the editor is not bundled again")
    made = tmp_path / "made"
    made.mkdir()
    built = timing.run(["node", "build.mjs", made], cwd=folder, text=True)
    assert built.returncode == 0, built.stderr
    for name in ("vendor.js", "vendor.txt"):
        assert (made / name).read_bytes() == (ASSETS / name).read_bytes()
