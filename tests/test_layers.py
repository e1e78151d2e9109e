"""Imports point one way: a package imports from those before it, never from those beside or after it."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "gesturesmith"

# From the bottom up; within a layer no package imports another, except the pairs named below.
LAYERS = (
    (
        "units",
        "source",
        "evidence",
        "registry",
        "paths",
        "inlining",
        "dependencies",
        "pinned",
        "values",
        "kinds",
        "version",
        "__init__",
    ),
    ("diagnostics",),
    ("acoustics", "textfile"),
    ("techniques", "instruments", "wording"),
    ("lang", "model"),
    (
        "realise",
        "tones",
        "rules",
        "difficulty",
        "judge",
        "exercises",
        "fixes",
        "checker",
        "explain",
        "importers",
        "editing",
    ),
    ("score", "pictures"),
    ("lytext", "backends", "lilypond"),
    ("sheets", "writers"),
    ("cache", "delivery", "pipeline", "batch", "dispatch"),
    ("api", "live", "lsp"),
    ("cli",),
)
# "Up or left": these packages are left of others in their layer, which import them.
LEFT = {
    "units": {"source", "evidence", "registry", "paths", "values"},
    "source": {"values"},
    "evidence": {"kinds", "values"},
    "registry": set(),
    "dependencies": set(),
    "paths": set(),
    "inlining": {"paths"},
    "pinned": {"values"},
    "values": set(),
    "kinds": set(),
    "version": set(),
    "__init__": {"version", "api"},  # the names of the library, from the module that defines them
    "techniques": set(),
    "instruments": {"techniques"},
    "wording": {"instruments", "techniques"},
    "lang": set(),
    "model": {"lang"},
    "realise": set(),
    "tones": {"realise"},
    "rules": {"realise"},
    "difficulty": {"realise", "rules"},
    "judge": {"realise", "rules", "difficulty"},
    "exercises": {"realise", "rules", "difficulty", "judge"},
    "fixes": {"rules", "judge"},
    "checker": {"realise", "rules", "difficulty", "judge", "exercises", "fixes"},
    "explain": {"rules", "difficulty", "checker"},
    "importers": {"rules", "judge"},
    "editing": {"rules"},
    "lytext": set(),
    "score": set(),
    "pictures": set(),
    "backends": {"lytext"},
    "lilypond": {"lytext"},
    "sheets": set(),
    "writers": set(),
    "cache": set(),
    "delivery": {"cache"},
    "pipeline": {"cache"},
    "batch": {"cache", "delivery", "pipeline"},
    "dispatch": {"pipeline"},
    "live": set(),
    "lsp": set(),
}
# Each third-party library is used in only one package.
ROOM_OF = {
    "abjad": {"backends"},
    "click": {"cli"},
    "distributed": {"batch"},
    "lilypond": {"lilypond"},
    "pypdf": {"writers"},
    "lsprotocol": {"lsp"},
    "pygls": {"lsp"},
    "starlette": {"live"},
    "uvicorn": {"live"},
}
# Other programs too are started in only one.
PROCESSES = {"subprocess": {"lilypond"}, "multiprocessing": set(), "pty": set()}


def room_of(module: str) -> str:
    """`gesturesmith.cli.main` is in `cli`, `gesturesmith` itself in `__init__`."""
    parts = module.split(".")
    return parts[1] if len(parts) > 1 else "__init__"


def height(room: str) -> int:
    return next(i for i, layer in enumerate(LAYERS) if room in layer)


def imports(tree: ast.AST, module: str, *, is_package: bool) -> Iterator[tuple[str, str]]:
    """Every module imported anywhere in a file, including in functions and for typing, with the name imported from
    it, which may itself be a module, or ""."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((alias.name, "") for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = module.split(".") if is_package else module.split(".")[:-1]
            start = ".".join([*base[: len(base) - node.level + 1], node.module or ""]).strip(".")
            start = start if node.level else (node.module or "")
            yield from ((start, alias.name) for alias in node.names)


def objections(text: str, module: str, *, is_package: bool = False) -> list[str]:
    """The imports of a file that its package may not have."""
    room = room_of(module)
    found = []
    for start, taken in imports(ast.parse(text), module, is_package=is_package):
        # `from gesturesmith import units` names a package, `from gesturesmith.units import spell` does not.
        name = f"{start}.{taken}" if start == "gesturesmith" else start
        top = name.split(".")[0]
        if top == "gesturesmith":
            other = room_of(name)
            allowed = other == room or height(other) < height(room) or other in LEFT.get(room, set())
        elif top in PROCESSES:
            allowed = room in PROCESSES[top]
        elif top in sys.stdlib_module_names:
            allowed = True
        else:
            allowed = room in ROOM_OF.get(top, set())
        if not allowed:
            found.append(f"{module} imports {name}")
    return found


def modules() -> list[tuple[Path, str]]:
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
        found.append((path, ".".join(parts[:-1] if parts[-1] == "__init__" else parts)))
    return found


def circles(texts: dict[str, str], packages: frozenset[str] = frozenset()) -> list[tuple[str, ...]]:
    """The modules that import each other, each circle sorted. `texts` by name; `packages` are those in
    `__init__`."""
    reads: dict[str, set[str]] = {}
    for module, text in texts.items():
        found = imports(ast.parse(text), module, is_package=module in packages)
        named = (f"{start}.{taken}" if f"{start}.{taken}" in texts else start for start, taken in found)
        reads[module] = {name for name in named if name in texts and name != module}
    reached: dict[str, set[str]] = {}
    for module in reads:
        waiting, seen = list(reads[module]), set[str]()
        while waiting:
            name = waiting.pop()
            if name not in seen:
                seen.add(name)
                waiting += reads[name]
        reached[module] = seen
    rings = {tuple(sorted(o for o in seen if m in reached[o])) for m, seen in reached.items() if m in seen}
    return sorted(rings)


def test_imports_point_up_or_left():
    found = [
        line
        for path, module in modules()
        for line in objections(path.read_text("utf-8"), module, is_package=path.name == "__init__.py")
    ]
    assert found == []


def test_no_modules_need_each_other():
    """Including inside a package, and imports deferred into a function."""
    texts = {module: path.read_text("utf-8") for path, module in modules()}
    packages = frozenset(module for path, module in modules() if path.name == "__init__.py")
    assert circles(texts, packages) == []


@pytest.mark.parametrize(
    ("texts", "found"),
    [
        ({"r.a": "import r.b", "r.b": "import r.c", "r.c": "def late():\n    from r.a import f"}, ["r.a r.b r.c"]),
        ({"r.a": "from r import b", "r.b": "from . import a"}, ["r.a r.b"]),
        ({"r": "from r.a import f", "r.a": "from r import f"}, ["r r.a"]),
        ({"r.a": "if TYPE_CHECKING:\n    from r.b import B", "r.b": "from r.a import A"}, ["r.a r.b"]),
        (
            {"r.a": "import r.b", "r.b": "import r.a", "s.a": "import s.b", "s.b": "import s.a"},
            ["r.a r.b", "s.a s.b"],
        ),
        ({"r": "from r.a import f", "r.a": "from r import b", "r.b": ""}, []),  # the package only names them
        ({"r.a": "import r.b, r.c", "r.b": "import r.c", "r.c": ""}, []),
    ],
)
def test_a_circle_is_seen(texts, found):
    assert [" ".join(ring) for ring in circles(texts, frozenset({"r"}))] == found


def test_every_room_is_in_a_layer():
    rooms = {room_of(module) for _, module in modules()}
    assert rooms <= {room for layer in LAYERS for room in layer}


@pytest.mark.parametrize(
    ("module", "text"),
    [
        ("gesturesmith.units", "from gesturesmith.lang import parse"),  # down
        ("gesturesmith.checker.run", "from gesturesmith.score import gesture_score"),  # down
        ("gesturesmith.rules.range", "from gesturesmith.judge.gesture import judge"),  # right
        ("gesturesmith.fixes.propose", "from gesturesmith.checker import check"),  # right
        ("gesturesmith.exercises.graded", "from gesturesmith.fixes.propose import ease"),  # beside
        ("gesturesmith.lang.parser", "from gesturesmith.model import gesture"),  # right
        ("gesturesmith.sheets.page", "from gesturesmith.writers.pdf import WRITER"),  # sideways
        ("gesturesmith.sheets.page", "def late():\n    import gesturesmith.pipeline"),  # down, hidden in a function
        ("gesturesmith.rules.range", "from gesturesmith.editing.hover import hover"),  # right
        ("gesturesmith.rules.range", "from ..cli import main"),  # down, relative
        ("gesturesmith.rules.range", "from gesturesmith import cli"),
        ("gesturesmith.tones.perform", "from gesturesmith.score.music import Music"),  # down: sound knows no page
        ("gesturesmith.tones.perform", "import abjad"),
        ("gesturesmith.rules.range", "from gesturesmith.importers.notated import NotatedPart"),  # right
        ("gesturesmith.sheets.page", "import abjad"),
        ("gesturesmith.score.plan", "import abjad"),
        ("gesturesmith.score.marks", "from gesturesmith.lytext import quoted"),
        ("gesturesmith.score.marks", "from gesturesmith.backends import lilypond"),
        ("gesturesmith.pipeline", "from subprocess import run"),
        ("gesturesmith.diagnostics.text", "import click"),
        ("gesturesmith.lang.parser", "import numpy"),
    ],
)
def test_an_import_the_wrong_way_is_seen(module, text):
    assert objections(text, module)


@pytest.mark.parametrize(
    ("module", "text"),
    [
        ("gesturesmith.cli.check", "import click, json\nfrom gesturesmith.pipeline import compile_text"),
        ("gesturesmith.backends.lilypond.leaves", "import abjad"),
        ("gesturesmith.lilypond.run", "import subprocess\nfrom gesturesmith import paths"),
        ("gesturesmith.checker.run", "from gesturesmith.rules import rules"),
        ("gesturesmith.cli.group", "from gesturesmith.version import __version__"),
    ],
)
def test_an_import_the_right_way_passes(module, text):
    assert objections(text, module) == []


def strings(path: Path) -> list[str]:
    """The strings in a file's code, without docstrings."""
    tree = ast.parse(path.read_text("utf-8"))
    held = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in held
    ]


def patterns(path: Path) -> list[str]:
    """The patterns that a file passes to `re`."""
    tree = ast.parse(path.read_text("utf-8"))
    calls = [n for n in ast.walk(tree) if isinstance(n, ast.Call) and isinstance(n.func, ast.Attribute)]
    given = [c.args[0] for c in calls if isinstance(c.func.value, ast.Name) and c.func.value.id == "re" and c.args]
    return [ast.unparse(one) for one in given]


def files(*rooms: str) -> list[Path]:
    found = [path for room in rooms for path in sorted((PACKAGE / room).rglob("*.py"))]
    assert found
    return found


def test_the_score_knows_no_command_of_lilypond():
    commands = re.compile(r"\\[A-Za-z]{3,}|\bgs[A-Z]|\bgs-[a-z]")
    assert [(p.name, s) for p in files("score") for s in strings(p) if commands.search(s)] == []
    assert [s for p in files("backends") for s in strings(p) if commands.search(s)]  # it is looked for rightly


def test_nobody_looks_for_commands_in_lilypond_text():
    """Its content comes from the score; printed text is never parsed."""
    made = [(p.name, pattern) for p in files("score", "backends", "sheets") for pattern in patterns(p)]
    assert [(name, pattern) for name, pattern in made if re.search(r"\\\\\\\\|gs|\.ly\b", pattern)] == []
    assert {name for name, _ in made} <= {"describe.py", "notes.py", "page.py"}  # texts for people, with fields
