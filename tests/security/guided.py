"""Searches for bytes that make the reader fail, guided by code coverage: run by `make soak`.

    python tests/security/guided.py [SECONDS]

Bytes that make it fail are printed, and the exit status is not 0. Atheris (pip install '.[soak]') guides the
search; if it is not available nothing is searched.
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
MOST_BYTES = 2000


def reader(data: bytes) -> None:
    """From bytes to gestures, and to the formatted file if there are no mistakes."""
    source = text_of("guided.gesture", data)
    if isinstance(source, Source) and not read(source).errors:
        format_text(source)


def profile(data: bytes) -> None:
    """Read the bytes as a profile, from a file."""
    path = Path(tempfile.gettempdir(), f"guided-{os.getpid()}.toml")
    path.write_bytes(data)
    load(path)


TARGETS = {"reader": reader, "profile": profile}


def seeds(target: str) -> list[bytes]:
    """The initial inputs."""
    if target == "profile":
        whole = [to_toml(instruments.get(name)).encode() for name in ("horn", "trombone", "natural-horn")]
        return [SHORT, *(text[:MOST_BYTES].rpartition(b"\n")[0] for text in whole)]
    texts = [path.read_bytes() for path in sorted(REPOSITORY.glob("docs/**/*.gesture"))]
    heads = [text[: MOST_BYTES // 2].rpartition(b"\n\n")[0] for text in texts]
    return [*heads, *(heads[0][:80] + b"\n\n" + text[-MOST_BYTES // 2 :].partition(b"\n\n")[2] for text in texts)]


def look(target: str, seconds: int) -> None:
    """One search, in this process, which it ends."""

    def watched(data: bytes) -> None:
        try:
            TARGETS[target](data)
        except BaseException:
            print(f"this makes the {target} fail: {data!r}", flush=True)
            raise

    with tempfile.TemporaryDirectory() as folder:
        for number, data in enumerate(seeds(target)):
            Path(folder, str(number)).write_bytes(data)
        words = "".join(f'"{"".join(f"\\x{byte:02x}" for byte in w.encode())}"\n' for w in PIECES)
        with tempfile.NamedTemporaryFile("w", suffix=".dict") as known:
            known.write(words)
            known.flush()
            limits = f"-max_total_time={seconds} -max_len={MOST_BYTES} -timeout=20 -rss_limit_mb=4096 -seed=6"
            told = f"-verbosity=0 -print_final_stats=1 -artifact_prefix={folder}/"
            atheris.Setup([sys.argv[0], *limits.split(), *told.split(), f"-dict={known.name}", folder], watched)
            atheris.Fuzz()


def both(seconds: int) -> int:
    """Each search in a separate process, since the library ends its process."""
    worst = 0
    for target in TARGETS:
        print(f"guided search of {seconds} s: {target}", flush=True)
        done = subprocess.run([sys.executable, __file__, str(seconds), target], check=False)
        worst = worst or done.returncode
    return worst


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
    # It lists every module it instruments.
    with redirect_stderr(io.StringIO()), atheris.instrument_imports(include=["gesturesmith", "tomllib"]):
        from gesturesmith import instruments
        from gesturesmith.instruments.profile import load, to_toml
        from gesturesmith.lang import format_text
        from gesturesmith.model.reading import read
        from gesturesmith.source import Source
        from gesturesmith.textfile import text_of
    from security.test_fuzz import PIECES

    look(sys.argv[2], wanted)
