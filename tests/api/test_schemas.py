"""Output for programs matches the schemas, and the schemas describe nothing that is never printed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any, get_args

import click
import jsonschema
import pytest
from api.texts import CALL, HEAD, HIGH
from importers.scores import bars, note, partwise

import gesturesmith
from gesturesmith import Severity, Verdict
from gesturesmith.api import SCHEMAS
from gesturesmith.batch import manifest_file
from gesturesmith.cli.group import cli
from gesturesmith.cli.main import main
from gesturesmith.diagnostics import as_json
from gesturesmith.difficulty.quantities import QUANTITIES
from gesturesmith.evidence import Kind
from gesturesmith.kinds import Correction, Layer

DOCS = Path(__file__).parents[2] / "docs"
LOADED = {name: json.loads(gesturesmith.schema(name)) for name in SCHEMAS}
VALID = {name: jsonschema.Draft202012Validator(schema) for name, schema in LOADED.items()}

# What the demo and the gallery have none of: a fallback, a slide that breaks, a trill's second fingering, variants
# left out, attacks too fast for single tonguing, suggestions that were not tried, a mistake inside a block.
MORE = f"""{HEAD}
gesture beyond "Beyond"
  contour: G6
  technique: harmonic-gliss
  fallback: chromatic

gesture sweep
  technique: harmonic-gliss
  fallback: chromatic
  contour: C4 ~~ E4
  lasts: 2 beats

exercises rising
  from: call
  start: G4..C7 by 12

gesture call
  contour: G4

gesture pointing
  contour: G4 -> C5

gesture roll
  contour: G4
  attacks: 9
  lasts: 1 s

passage calls
  play: call, beyond

gesture wrong
  conture: G4
"""
TROMBONE = """instrument: trombone
pitches: written

gesture broken
  technique: slide-gliss
  contour: Bb2 -- Bb3
"""
PARTS = """pitches: written
part upper
  instrument: trumpet
part lower
  instrument: tuba
gesture call
  contour: G5
passage both
  upper: call
  lower: C7 for 1
exercises more
  from: call
  start: G4, A4
"""
DELIVERY = """delivery = 1
formats = ["ly"]
languages = ["en", "de"]
[[works]]
files = ["call.gesture"]
"""
PLAN = """lesson_plan = 1
student = "horn"
begins = 2026-09-07
weeks = 2
level = 2
techniques = ["scoop"]
"""
# A file for each way of not being text, by name.
NO_TEXT = {"pdf": b"%PDF-1.7", "utf16": b"\xff\xfea\0", "zero": b"a\0b", "latin": b"# caf\xe9\n", "empty": b""}


@pytest.fixture(scope="module")
def printed(tmp_path_factory) -> dict[str, list[Any]]:
    """The commands' output for programs, by the name of its schema."""
    folder = tmp_path_factory.mktemp("printed")
    for name, data in {
        **NO_TEXT,
        "more": MORE.encode(),
        "trombone": TROMBONE.encode(),
        "parts": PARTS.encode(),
        "high": HIGH.encode(),
    }.items():
        (folder / f"{name}.gesture").write_bytes(data)
    (folder / "call.gesture").write_text(CALL)
    sign = note("C7", 16, "<ornaments><turn/></ornaments>")
    (folder / "score.musicxml").write_bytes(partwise(bars(sign + "<blob/>"), bars(sign), names=("Horn", "Violin")))
    own = [str(path) for path in sorted(folder.glob("*.gesture"))]
    found: dict[str, list[Any]] = {name: [] for name in SCHEMAS}
    with pytest.MonkeyPatch.context() as patch:
        out: list[bytes] = []
        for module in ("check", "suggest", "listing"):
            patch.setattr(f"gesturesmith.cli.{module}.say_bytes", out.append)
        patch.chdir(folder)
        (folder / "nothing").mkdir()
        main(["check", "--json", str(DOCS / "demo"), str(DOCS / "gallery"), *own, "gone.gesture", "nothing"])
        main(["check", "--json", "score.musicxml"])
        main(["suggest", "--json", *own, "gone.gesture"])
        main(["suggest", "--json", "--only", "beyond", "high.gesture"])
        main(["suggest", "--json", "--apply", "high.gesture"])
        found["report"] += map(json.loads, out)
        out.clear()
        for what in ("techniques", "instruments", "rules"):
            main(["list", what, "--json"])
        found["list"] += map(json.loads, out)
        (folder / "delivery.toml").write_text(DELIVERY)
        (folder / "plan.toml").write_text(PLAN)
        both = ("--as", "ly,musicxml")
        makers = (
            ["engrave", *own, "gone.gesture", *both],
            ["engrave", "--draft", "high.gesture", "parts.gesture", *both],
            ["notes", "call.gesture", "--as", "ly"],
            ["sheet", "more.gesture", *both],
            ["chart", "horn", "--kind", "ladders", *both],
            ["try-out", "horn", "--questions", "1", *both],
            ["deliver", "delivery.toml"],
            ["term", "plan.toml", "--as", "ly"],
        )
        for number, maker in enumerate(makers):
            manifest = folder / f"{number}.json"
            main([*maker, "-o", f"out{number}", "--manifest", str(manifest)])
            found["manifest"].append(json.loads(manifest.read_bytes()))
    return found


@pytest.mark.parametrize("name", SCHEMAS)
def test_everything_that_is_printed_is_as_its_schema_says(name, printed):
    assert len(printed[name]) >= 3
    for value in printed[name]:
        assert [f"{e.json_path}: {e.message[:200]}" for e in VALID[name].iter_errors(value)] == []


def test_each_command_is_among_those_that_were_tried():
    """A new command that prints JSON comes with its schema."""
    context = click.Context(cli)
    with_json, with_manifest = set(), set()
    for name in cli.list_commands(context):
        command = cli.get_command(context, name)
        options = {option for parameter in command.params for option in parameter.opts}
        with_json |= {name} if "--json" in options else set()
        with_manifest |= {name} if "--manifest" in options else set()
        assert ("--json" in options) == ("--json-schema" in options), name
    assert with_json == {"check", "suggest", "list"}
    assert with_manifest == {"engrave", "notes", "sheet", "chart", "try-out", "deliver", "term"}


@pytest.mark.parametrize(("command", "name"), [("check", "report"), ("suggest", "report"), ("list", "list")])
def test_a_command_gives_its_schema(command, name, capsysbinary):
    """It needs no file."""
    assert main([command, "--json-schema"]) == 0
    assert capsysbinary.readouterr().out.decode() == gesturesmith.schema(name)


def objects(schema: Any, path: str = "#") -> Iterator[tuple[str, dict[str, Any]]]:
    """The object descriptions in a schema, each with its place."""
    if isinstance(schema, dict):
        if "properties" in schema:
            yield path, schema
        for key, value in schema.items():
            yield from objects(value, f"{path}/{key}")
    elif isinstance(schema, list):
        for number, value in enumerate(schema):
            yield from objects(value, f"{path}/{number}")


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_one_and_closed(name):
    jsonschema.Draft202012Validator.check_schema(LOADED[name])
    for path, found in objects(LOADED[name]):
        assert found.get("additionalProperties") is False, path
        assert set(found["required"]) <= set(found["properties"]), path


def resolved(schema: dict[str, Any], whole: dict[str, Any]) -> dict[str, Any]:
    return whole["$defs"][schema["$ref"].rpartition("/")[2]] if "$ref" in schema else schema


def used(value: Any, schema: dict[str, Any], whole: dict[str, Any]) -> Iterator[tuple[int, str]]:
    """The properties of a schema that a value uses, by the identity of the object that defines them."""
    schema = resolved(schema, whole)
    for way in schema.get("oneOf", ()):
        if set(resolved(way, whole)["required"]) <= set(value):
            yield from used(value, way, whole)
    if isinstance(value, dict):
        for key, inner in value.items():
            if key in schema.get("properties", {}):
                yield id(schema["properties"]), key
                yield from used(inner, schema["properties"][key], whole)
    elif isinstance(value, list) and "items" in schema:
        for inner in value:
            yield from used(inner, schema["items"], whole)


@pytest.mark.parametrize("name", SCHEMAS)
def test_everything_that_a_schema_names_is_printed_somewhere(name, printed):
    there = {pair for value in printed[name] for pair in used(value, LOADED[name], LOADED[name])}
    missing = [
        f"{path}/{key}"
        for path, found in objects(LOADED[name])
        for key in found["properties"]
        if (id(found["properties"]), key) not in there
    ]
    assert missing == []


@pytest.mark.parametrize("name", SCHEMAS)
def test_what_a_schema_does_not_know_is_found(name, printed):
    """A new field missing from the schema, or one that no longer exists."""
    value = json.loads(json.dumps(printed[name][0]))
    assert VALID[name].is_valid(value)
    assert not VALID[name].is_valid({**value, "more": 1})
    assert not VALID[name].is_valid({k: v for k, v in value.items() if k != "schema"})
    assert not VALID[name].is_valid({**value, "schema": 99})
    (inner,) = [key for key in ("files", "techniques", "sources") if key in value]
    value[inner][0]["more"] = 1
    assert not VALID[name].is_valid(value)


def test_closed_sets_are_those_of_the_code():
    report, listed, manifest = (LOADED[name]["$defs"] for name in SCHEMAS)
    severities = [s.value for s in Severity]
    assert report["severity"]["enum"] == severities
    assert manifest["finding"]["properties"]["severity"]["enum"] == severities
    rules = listed["rules"]["properties"]["rules"]["items"]["properties"]
    assert rules["severity"]["enum"] == severities
    assert report["verdict"]["enum"] == [v.value for v in Verdict]
    assert manifest["said"]["properties"]["verdict"]["enum"] == [v.value for v in Verdict]
    offered = [v.value for v in Verdict if v is not Verdict.NOT_AS_WRITTEN]
    assert report["suggestion"]["properties"]["verdict"]["enum"] == offered
    assert report["finding"]["properties"]["evidence"]["properties"]["kind"]["enum"] == [k.value for k in Kind]
    assert report["point"]["properties"]["correction"]["enum"] == [c for c in get_args(Correction) if c]
    assert report["demand"]["properties"]["name"]["enum"] == [q.name for q in QUANTITIES]
    techniques = listed["techniques"]["properties"]["techniques"]["items"]["properties"]
    assert techniques["layer"]["enum"] == list(get_args(Layer))


def test_the_words_for_people_are_those_of_the_json():
    assert [v.words for v in Verdict] == [v.value.replace("-", " ") for v in Verdict]
    assert [s.verdict for s in Severity] == list(Verdict)


@pytest.mark.parametrize(
    ("name", "version"),
    [("report", as_json.SCHEMA), ("manifest", manifest_file.SCHEMA), ("list", 1)],
)
def test_a_schema_bears_the_version_that_is_printed(name, version, printed):
    assert LOADED[name]["$id"] == f"urn:gesturesmith:{name}:{version}"
    assert {value["schema"] for value in printed[name]} == {version}


# --- values ----------------------------------------------------------------------------------------------

PLACE = {"line", "column", "end_column"}
# For each value of a report: its definition, fields printed under another name, and fields not printed, with
# reasons.
PRINTED: dict[str, tuple[str, dict[str, set[str]], dict[str, str]]] = {
    "FileReport": ("file", {"source": {"file"}}, {}),
    "ReadError": ("error", {"span": PLACE}, {"gesture": "`unread` names it"}),
    "GestureReport": ("gesture", {"span": {"line"}}, {}),
    "PassageReport": ("passage", {"span": {"line"}}, {}),
    "ExerciseReport": ("exercise", {"span": {"line"}}, {"title": "a sheet has it"}),
    "Demand": ("demand", {}, {}),
    "RealisationReport": ("realisation", {"techniques": {"technique"}}, {}),
    "PointReport": ("point", {}, {}),
    "Finding": (
        "finding",
        {"span": PLACE, "text": {"message"}},
        {
            "proposed_fixes": "what was proposed before it was tried",
            "physical": "a matter of `allow`, which has been applied",
            "until": "the end of a stretch, which scores name by its bar",
        },
    ),
    "Number": ("number", {}, {}),
    "Suggestion": ("suggestion", {}, {"words": "for people"}),
    "Edit": ("edit", {}, {}),
}


@pytest.mark.parametrize("name", PRINTED)
def test_every_field_of_a_value_is_printed_or_says_why_not(name):
    """A new field fails here until it has a place in the schema or a reason."""
    definition, renamed, left_out = PRINTED[name]
    cls = getattr(gesturesmith, name)
    own = {f.name for f in fields(cls)} if is_dataclass(cls) else set(cls._fields)
    assert set(left_out) <= own
    assert set(renamed) <= own
    properties = set(LOADED["report"]["$defs"][definition]["properties"])
    named = {p for f in own - set(left_out) for p in renamed.get(f, {f})}
    extra = {"realisation"} if name == "PassageReport" else set()  # null, so that both have one shape
    assert properties == named | extra


def test_every_value_of_a_report_is_looked_at():
    reports = {name for name in gesturesmith.__all__ if name.endswith("Report")}
    assert reports <= set(PRINTED)
