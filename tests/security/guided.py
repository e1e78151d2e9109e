"""Looks for bytes that make the reader fail, led by what each of them reaches in the code: run by `make soak`.

    python tests/security/guided.py [SECONDS]

Bytes that make it fail are printed, and the status is not 0. Atheris (pip install '.[soak]') leads it; where it
cannot be had nothing is looked for.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
import tempfile
from contextlib import redirect_stderr
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
SECONDS = 60
SHORT = b"""instrument_profile = 1
based_on = "horn"
player = "second horn"
[usual_range]
low = "C2"
high = "F5"
[limits]
breath_litres = { narrow = 3.5, wide = 5, kind = "house", source = "measured" }
"""
MOST_BYTES = 3000


def reader(data: bytes) -> None:
    """All that `check`, `check --json` and `format` do with a file."""
    test_fuzz.whole_way(data)


def profile(data: bytes) -> None:
    """A profile, in a file as they are read."""
    path = Path(tempfile.gettempdir(), f"guided-{os.getpid()}.toml")
    path.write_bytes(data)
    load(path)


TARGETS = {"reader": reader, "profile": profile}


def seeds(target: str) -> list[bytes]:
    """What it starts from."""
    if target == "profile":
        return [
            to_toml(instruments.get(name)).encode()[:MOST_BYTES] for name in ("horn", "trombone", "natural-horn")
        ]
    texts = [path.read_bytes() for path in sorted(REPOSITORY.glob("docs/**/*.gesture"))]
    return [text[:MOST_BYTES].rpartition(b"\n\n")[0] for text in texts]


def look(target: str, seconds: int) -> None:
    """One search, in this process, which ends with it."""
    with tempfile.TemporaryDirectory() as folder:
        for number, data in enumerate(seeds(target)):
            Path(folder, str(number)).write_bytes(data)
        words = "".join(f'"{"".join(f"\\x{byte:02x}" for byte in w.encode())}"\n' for w in test_fuzz.PIECES)
        with tempfile.NamedTemporaryFile("w", suffix=".dict") as known:
            known.write(words)
            known.flush()
            limits = f"-max_total_time={seconds} -max_len={MOST_BYTES} -timeout=20 -rss_limit_mb=4096 -seed=6"
            told = "-verbosity=0 -print_final_stats=1"
            atheris.Setup(
                [sys.argv[0], *limits.split(), *told.split(), f"-dict={known.name}", folder], TARGETS[target]
            )
            atheris.Fuzz()


def both(seconds: int) -> int:
    """Each search in a process of its own: the library ends the process it runs in."""
    targets = ("reader", "profile")
    return max(
        abs(subprocess.run([sys.executable, __file__, str(seconds), t], check=False).returncode) for t in targets
    )


if __name__ == "__main__":
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else SECONDS
    try:
        import atheris
    except ImportError:
        print("atheris is not installed for this Python: the guided search is left out")
        sys.exit(0)
    if len(sys.argv) < 3:
        sys.exit(both(wanted))
    sys.path[:0] = [str(REPOSITORY), str(REPOSITORY / "tests")]
    # It tells of every module that it watches.
    with redirect_stderr(io.StringIO()), atheris.instrument_imports(include=["gesturesmith", "tomllib"]):
        from security import test_fuzz

        from gesturesmith import instruments
        from gesturesmith.instruments.profile import load, to_toml
    test_fuzz.LONGEST_S = 10.0  # all is slower where it is watched
    look(sys.argv[2], wanted)
