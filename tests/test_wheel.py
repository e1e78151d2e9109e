"""A wheel installed elsewhere has everything it needs; a source archive has everything its tests read."""

from __future__ import annotations

import fnmatch
import os
import sys
import sysconfig
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest
import timing
from sampling import whole

pytestmark = whole

REPOSITORY = Path(__file__).parent.parent


def run(*command: str | Path, cwd: Path) -> str:
    """The output of a program, or its error message if it fails."""
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "GESTURESMITH"))}
    done = timing.run(command, cwd=cwd, env=environment, text=True, seconds=300)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "-w", folder, REPOSITORY, cwd=folder)
    (built,) = folder.glob("gesturesmith-*.whl")
    return built


@pytest.fixture(scope="module")
def elsewhere(wheel, tmp_path_factory) -> Path:
    """An environment with only our wheel.

    The libraries it depends on are borrowed from this environment: a path file adds a folder without obeying
    the path files in it, so that the editable install there stays out of reach.
    """
    folder = tmp_path_factory.mktemp("elsewhere")
    venv.create(folder / "env", with_pip=False)
    python = folder / "env" / "bin" / "python"
    run(
        sys.executable,
        "-m",
        "pip",
        "--python",
        python,
        "install",
        "--quiet",
        "--no-deps",
        "--no-index",
        wheel,
        cwd=folder,
    )
    (site,) = (folder / "env" / "lib").glob("python*/site-packages")
    (site / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return folder


def test_the_wheel_holds_what_it_should(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    assert "gesturesmith/py.typed" in names
    for path in sorted((REPOSITORY / "templates").rglob("*")):
        if path.is_file():
            assert f"gesturesmith/templates/{path.relative_to(REPOSITORY / 'templates').as_posix()}" in names
    assert any(n.endswith("LICENSE") for n in names)
    assert not [n for n in names if n.startswith(("tests/", "templates/", "docs/"))]


def test_it_is_the_installed_one(elsewhere):
    where = run(
        elsewhere / "env" / "bin" / "python",
        "-c",
        "import gesturesmith; print(gesturesmith.__file__)",
        cwd=elsewhere,
    )
    assert Path(where.strip()).is_relative_to(elsewhere / "env")


@pytest.mark.lilypond
def test_its_starter_file_is_engraved_with_its_templates(elsewhere):
    command = elsewhere / "env" / "bin" / "gesturesmith"
    run(command, "new", "study", cwd=elsewhere)
    run(command, "engrave", "--as", "pdf,ily", "study.gesture", cwd=elsewhere)
    out = elsewhere / "out"
    assert (out / "study.pdf").read_bytes().startswith(b"%PDF-")
    snippets = [p for p in (out / "study").glob("*.ily") if p.stem != "gesturesmith"]
    assert snippets
    for snippet in snippets:
        assert snippet.with_suffix(".pdf").read_bytes().startswith(b"%PDF-")
        assert f"gesture-{snippet.stem}" in snippet.read_text("utf-8")
    assert (out / "study" / "gesturesmith.ily").is_file()


def test_the_archive_of_the_sources_leaves_nothing_out():
    """Its tests read the pages beside the sources, and run as in a clone."""
    build = tomllib.loads((REPOSITORY / "pyproject.toml").read_text())["tool"]["hatch"]["build"]
    put_in = {place.split("/")[0] for place in build["targets"]["sdist"]["include"]} | {"pyproject.toml"}
    ignored = [*(REPOSITORY / ".gitignore").read_text().split(), ".git", "PKG-INFO"]
    there = {p.name for p in REPOSITORY.iterdir()}
    assert {n for n in there if not any(fnmatch.fnmatch(n, one.strip("/")) for one in ignored)} == put_in
