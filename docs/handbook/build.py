"""Builds the handbook: `make handbook`, or python docs/handbook/build.py [FOLDER] [--quick]

Writes FOLDER/html (default FOLDER: out/handbook). A Sphinx warning is a failure. `--quick` leaves out the slow
parts: the charts of instruments, the registers of techniques, and the pictures that snippets make, replaced by
one from the gallery.
"""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from gesturesmith.cli.main import main as gesturesmith
from handbook import snippets
from handbook.instruments import found
from handbook.pages import ROOT, charts_of, highlighted, pages
from handbook.schema import FOLDER


def write(folder: Path, *, quick: bool) -> None:
    """Write all Sphinx input to `folder`; RuntimeError if a snippet fails or a chart cannot be made."""
    for place, text in pages(quick=quick).items():
        made = text
        if place == "commands.md":  # the repository has no copy with its output
            with tempfile.TemporaryDirectory() as scratch:
                made = snippets.refreshed(text, Path(scratch).resolve(), everything=True)
        if snippets.MADE.search(text):
            with tempfile.TemporaryDirectory() as name:
                scratch = Path(name).resolve()
                if quick:
                    _stand_in(text, scratch)
                elif faults := snippets.run(text, scratch):
                    raise RuntimeError("\n".join((place, *faults)))
                made = _with_pictures(place, made, scratch, folder)
        target = folder / place
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(highlighted(made), "utf-8")
    (folder / "pictures").mkdir()
    for picture in sorted((ROOT / "docs" / "gallery").glob("*.png")):
        shutil.copy(picture, folder / "pictures")
    for picture in sorted((ROOT / "docs" / "pictures").glob("*.png")):
        shutil.copy(picture, folder / "pictures")
    shutil.copytree(FOLDER, folder / "schemas")
    if not quick:
        _charts(folder / "charts")


def _stand_in(text: str, scratch: Path) -> None:
    """Put a picture of the gallery wherever a snippet would make one."""
    picture = min((ROOT / "docs" / "gallery").glob("*.png"))
    for found_there in snippets.MADE.finditer(text):
        target = scratch / found_there[1]
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(picture, target)


def _with_pictures(place: str, text: str, scratch: Path, folder: Path) -> str:
    """A page with the pictures that its snippets made in `scratch`."""
    for found_there in snippets.MADE.finditer(text):
        target = folder / "made" / found_there[1]
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(scratch / found_there[1], target)
    up = "../" * place.count("/")
    return snippets.MADE.sub(rf"{up}made/\1", text)


def _charts(folder: Path) -> None:
    for instrument in found():
        said = io.StringIO()
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            status = gesturesmith(["chart", instrument.key, "--as", "png", "-o", str(folder), "--force"])
        missing = [name for name in charts_of(instrument) if not (folder / f"{name}.png").is_file()]
        if status or missing:
            raise RuntimeError(f"charts of {instrument.key}: {status}, without {missing}\n{said.getvalue()}")


def build(folder: Path, *, quick: bool = False) -> int:
    """Build the handbook in `folder`/html; the exit status of Sphinx."""
    html = folder / "html"
    if html.exists():
        shutil.rmtree(html)
    with tempfile.TemporaryDirectory() as scratch:
        source = Path(scratch) / "source"
        write(source, quick=quick)
        conf = str(Path(__file__).parent)
        command = [sys.executable, "-m", "sphinx", "-b", "html", "-c", conf, "-E", "-W", "--keep-going", "-q"]
        path = {"PYTHONPATH": str(ROOT / "docs")}
        done = subprocess.run(
            [*command, "-d", f"{scratch}/doctrees", str(source), str(html)], env=os.environ | path, check=False
        )
    (html / ".buildinfo").unlink(missing_ok=True)
    return done.returncode


def main(arguments: list[str]) -> int:
    quick = "--quick" in arguments
    folders = [a for a in arguments if a != "--quick"]
    if len(folders) > 1 or any(a.startswith("-") for a in folders):
        print(__doc__)
        return 2
    folder = Path(folders[0]) if folders else ROOT / "out" / "handbook"
    try:
        status = build(folder, quick=quick)
    except RuntimeError as error:
        print(error, file=sys.stderr)
        return 1
    if not status:
        print(f"the handbook: {folder / 'html' / 'index.html'}")
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
