"""What reads MusicXML: the schema of the standard, verovio, and musicxml2ly with its LilyPond."""

from __future__ import annotations

import importlib.util
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import timing
import verovio
from lxml import etree
from musicxml.exported import Exported

SCHEMA = Path(__file__).parents[1] / "reference" / "musicxml"


class _Beside(etree.Resolver):
    """The schemas that the one of MusicXML imports lie beside it; nothing comes from a network."""

    def resolve(self, url, public_id, context):
        return self.resolve_filename(str(SCHEMA / url.rsplit("/", 1)[-1]), context)


@cache
def _schema() -> etree.XMLSchema:
    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(_Beside())
    return etree.XMLSchema(etree.parse(SCHEMA / "musicxml.xsd", parser))


def invalid(exported: Exported) -> list[str]:
    """What the schema objects to."""
    parser = etree.XMLParser(no_network=True, load_dtd=False, resolve_entities=False)
    document = etree.fromstring(exported.data, parser)
    if _schema().validate(document):
        return []
    return [f"{exported.name}, line {e.line}: {e.message}" for e in _schema().error_log]


@cache
def _toolkit() -> verovio.toolkit:
    verovio.enableLog(verovio.LOG_OFF)
    return verovio.toolkit()


def undrawn(exported: Exported) -> list[str]:
    """What verovio does not draw: every head of a note has to be there."""
    toolkit = _toolkit()
    if not toolkit.loadData(exported.data.decode()):
        return [f"{exported.name}: verovio cannot read it"]
    pictures = [toolkit.renderToSVG(page) for page in range(1, toolkit.getPageCount() + 1)]
    heads = sum(picture.count('class="notehead') for picture in pictures)
    notes = sum(note.find("rest") is None for note in ElementTree.fromstring(exported.data).iter("note"))
    return [] if heads == notes else [f"{exported.name}: {heads} heads drawn of {notes}"]


def stops_musicxml2ly(exported: Exported) -> bool:
    """Whether it stops at strokes through a stem (2.25.12): where no note value without a dot came before."""
    for note in ElementTree.fromstring(exported.data).iter("note"):
        if note.find(".//tremolo") is not None and note.find("dot") is not None:
            return True
        if note.find("type") is not None and note.find("dot") is None:
            return False
    return False


def unread_by_lilypond(exported: Exported, folder: Path) -> list[str]:
    """What musicxml2ly complains of, or what stops LilyPond at what it wrote."""
    found = importlib.util.find_spec("lilypond-binaries")
    assert found is not None
    assert found.submodule_search_locations
    programs = Path(found.submodule_search_locations[0]) / "bin"
    (folder / "score.musicxml").write_bytes(exported.data)
    converted = timing.run([str(programs / "musicxml2ly"), "-o", "score", "score.musicxml"], cwd=folder, text=True)
    told = [line for line in converted.stderr.splitlines() if "warning" in line and "microtones" not in line]
    if converted.returncode or told:
        return [f"{exported.name}: {converted.returncode} {told or converted.stderr}"]
    command = [str(programs / "lilypond"), "--loglevel=ERROR", "-dno-print-pages", "score.ly"]
    done = timing.run(command, cwd=folder, text=True)
    return [f"{exported.name}: {done.stderr}"] if done.returncode else []
