"""A wheel installed elsewhere has everything it needs; a source archive has everything its tests read."""

from __future__ import annotations

import fnmatch
import os
import shutil
import sys
import sysconfig
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest
import timing
from sampling import WHOLE, whole

pytestmark = whole

REPOSITORY = Path(__file__).parent.parent


def outcome(*command: str | Path, cwd: Path, lilypond: str = "") -> tuple[int, str, str]:
    """The status of a program and what it wrote. `lilypond`: the one named in the environment."""
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "GESTURESMITH"))}
    environment |= {"GESTURESMITH_LILYPOND": lilypond} if lilypond else {}
    done = timing.run(command, cwd=cwd, env=environment, text=True, seconds=300)
    return done.returncode, done.stdout, done.stderr


def run(*command: str | Path, cwd: Path, lilypond: str = "") -> str:
    """The output of a program, or its error message if it fails."""
    status, said, complained = outcome(*command, cwd=cwd, lilypond=lilypond)
    assert status == 0, said + complained
    return said


def pythons() -> list[str]:
    """This Python, and of the other release we say we run on the first that runs: on PATH, or one of pyenv's."""
    found = [sys.executable]
    for minor in {12, 13} - {sys.version_info.minor}:
        of_pyenv = sorted(Path.home().glob(f".pyenv/versions/3.{minor}.*/bin/python"))
        for path in (shutil.which(f"python3.{minor}"), *map(str, of_pyenv)):
            if path and timing.run([path, "--version"], text=True).returncode == 0:
                found.append(path)
                break
    return found


@pytest.fixture(scope="module")
def archive(tmp_path_factory) -> Path:
    """The archive of the sources."""
    folder = tmp_path_factory.mktemp("archive")
    venv.create(folder / "env", with_pip=True)
    python = folder / "env" / "bin" / "python"
    run(python, "-m", "pip", "install", "--quiet", "hatchling", cwd=folder)
    run(python, "-c", f"import hatchling.build as b; b.build_sdist({str(folder)!r})", cwd=REPOSITORY)
    (built,) = folder.glob("gesturesmith-*.tar.gz")
    return built


@pytest.fixture(scope="module")
def wheel(archive, tmp_path_factory) -> Path:
    """The wheel, made from the archive: whatever that lacks, this lacks."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "-w", folder, archive, cwd=folder)
    (built,) = folder.glob("gesturesmith-*.whl")
    return built


@pytest.fixture(scope="module", params=pythons() if WHOLE else [sys.executable])
def elsewhere(request, wheel, tmp_path_factory) -> Path:
    """An environment of each Python there is, with only our wheel.

    The libraries it depends on are borrowed from this environment: a path file adds a folder without obeying
    the path files in it, so that the editable install there stays out of reach.
    """
    folder = tmp_path_factory.mktemp("elsewhere")
    run(request.param, "-m", "venv", "--without-pip", folder / "env", cwd=folder)
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


@pytest.mark.lilypond
def test_with_the_lilypond_of_the_system_it_engraves_as_well(elsewhere):
    own = shutil.which("lilypond")
    if own is None:
        pytest.skip("no LilyPond on PATH")
    command = elsewhere / "env" / "bin" / "gesturesmith"
    run(command, "new", "other", cwd=elsewhere)
    run(command, "engrave", "--as", "pdf", "-o", "of-system", "other.gesture", cwd=elsewhere, lilypond=own)
    assert (elsewhere / "of-system" / "other.pdf").read_bytes().startswith(b"%PDF-")


def test_without_lilypond_it_says_how_to_get_one(elsewhere):
    """And makes what needs none."""
    command = elsewhere / "env" / "bin" / "gesturesmith"
    run(command, "new", "none", cwd=elsewhere)
    asked = (command, "engrave", "--as", "pdf,ily", "-o", "without", "none.gesture")
    status, _, complained = outcome(*asked, cwd=elsewhere, lilypond="/nowhere/lilypond")
    assert status == 3
    assert "pip install lilypond" in complained
    assert "Traceback" not in complained
    assert list((elsewhere / "without" / "none").glob("*.ily"))
    assert not list((elsewhere / "without").rglob("*.pdf"))


def test_the_archive_of_the_sources_leaves_nothing_out():
    """Its tests read the pages beside the sources, and run as in a clone."""
    build = tomllib.loads((REPOSITORY / "pyproject.toml").read_text())["tool"]["hatch"]["build"]
    put_in = {place.split("/")[0] for place in build["targets"]["sdist"]["include"]} | {"pyproject.toml"}
    ignored = [*(REPOSITORY / ".gitignore").read_text().split(), ".git", "PKG-INFO"]
    there = {p.name for p in REPOSITORY.iterdir()}
    assert {n for n in there if not any(fnmatch.fnmatch(n, one.strip("/")) for one in ignored)} == put_in
