"""The second wall: what LilyPond may do, even if hostile code should ever reach it.

LilyPond runs whatever Scheme a document holds, and no user text gets into ours as code (`lytext`). Should that wall
have a hole, this one stands behind it. Limits on time, memory and the size of files hold on every POSIX system.
Where bubblewrap is installed, LilyPond sees of the machine's files only the system's programs and fonts, itself,
our templates and its own working folder; it has no network and no rights, and with the cairo backend it can start
no process.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import platform
import shutil
import signal
import struct
import subprocess
import tempfile
from functools import cache
from pathlib import Path

from gesturesmith import paths
from gesturesmith.values import frozen

WAYS = ("auto", "always", "never")
OWN_SESSION = os.name == "posix"

CPU_S = 900  # more than any job is given on the wall clock; ends what outlives even us
MEMORY_KB = 4 * 1024 * 1024  # address space; a book of 500 gestures takes a quarter of it
FILE_BLOCKS = 512 * 1024  # 256 MB a file where a block is 512 bytes (POSIX), 512 MB where it is 1024
FOLDER_BYTES = 512 * 1024 * 1024  # all that a run may have made; looked at while it is waited for
MAX_ENTRIES = 20_000  # files and folders of a run: fifty gestures in every format are some hundreds
LOG_BYTES = 16 * 1024 * 1024  # what a run may say
_PROCESSES = 64  # with a backend that needs Ghostscript
_ANSWER_S = 30

# What a system's programs need; missing ones are passed over.
_SYSTEM = ("/usr", "/bin", "/sbin", "/lib", "/lib64", "/etc/fonts", "/etc/ld.so.cache", "/var/cache/fontconfig")
_FONTS = ("/usr/share/fonts", "/usr/local/share/fonts")
# The parts of an installation of LilyPond's own, beside its `bin`. Not the whole folder: it could be a home.
_PARTS = (
    "etc/fonts",
    "etc/relocate",
    "lib",
    "libexec",
    "share/lilypond",
    "share/guile",
    "share/ghostscript",
    "share/fonts",
)
_CACHE = "/tmp/.cache"  # inside

# Linux numbers of system calls: architecture, clone, clone3, then fork, vfork, unshare as far as there are (kernel
# headers audit.h and unistd.h).
_CALLS = {
    "x86_64": (0xC000003E, 56, 435, (57, 58, 272)),
    "aarch64": (0xC00000B7, 220, 435, (97,)),
}
_CLONE_THREAD = 0x00010000
_ALLOW, _ERRNO, _EPERM, _ENOSYS = 0x7FFF0000, 0x00050000, 1, 38


@frozen(kw_only=True)
class Sandbox:
    """A bubblewrap that works here. `fonts`: a folder of font lists made inside, read-only there; None without."""

    bwrap: Path
    fonts: Path | None = None

    @property
    def words(self) -> str:
        return f"bubblewrap ({self.bwrap}): no network, no home files, limited processes"


def limited(command: list[str], *, few_processes: bool = False) -> list[str]:
    """The command under limits of time, memory and file size. Set by a shell: threads and `preexec_fn` do not mix.

    `few_processes` only inside a sandbox, where they are counted apart from the user's other ones.
    """
    if os.name != "posix" or not os.access("/bin/sh", os.X_OK):
        return command
    # Each by itself: one that a system does not know must not lose the others. Core dumps would hold a user's text.
    some = [f"ulimit -t {CPU_S}", f"ulimit -f {FILE_BLOCKS}", f"ulimit -v {MEMORY_KB}", "ulimit -c 0"]
    if few_processes and _counts_processes_apart():
        some.append(f"{{ ulimit -u {_PROCESSES} || ulimit -p {_PROCESSES}; }}")
    return ["/bin/sh", "-c", "; ".join(f"{one} 2>/dev/null" for one in some) + '; exec "$@"', "sh", *command]


def inside(
    sandbox: Sandbox, command: list[str], folder: Path, program: Path, *, filter_fd: int | None = None
) -> list[str]:
    """The command as bubblewrap runs it, in its working folder. `program`: the LilyPond, wherever it lies.

    It must be started in a session of its own and ended by `end_group`. bubblewrap binds its inner process to the
    outer one (`--die-with-parent`) only some milliseconds after its start; one killed before would leave it. So it
    makes no session inside (`--new-session`): its first process stays in the group, and whatever runs in there ends
    with that one. There is no terminal to be kept from anybody, since the session never had one.

    `filter_fd`: where `process_filter` can be read from; None lets processes begin, though few of them.
    """
    words = [
        str(sandbox.bwrap),
        "--unshare-user", "--unshare-all", "--cap-drop", "ALL",
        "--die-with-parent",
        "--hostname", "gesturesmith",
    ]  # fmt: skip
    for place in _SYSTEM:
        path = Path(place)
        if path.is_symlink():
            words += ["--symlink", os.readlink(path), place]
        elif path.exists():
            words += ["--ro-bind", place, place]
    words += ["--proc", "/proc", "--dev", "/dev", "--tmpfs", "/tmp"]
    if sandbox.fonts is not None:
        words += ["--ro-bind-try", str(sandbox.fonts), f"{_CACHE}/fontconfig"]
    for path in (*_parts_of(program), paths.templates()):
        words += ["--ro-bind", str(path), str(path)]
    words += ["--bind", str(folder), str(folder)]
    # Files in these lie in memory, where no limit would see them: there is one place to write, and its size is.
    for place in ("/dev", "/tmp", "/"):
        words += ["--remount-ro", place]
    words += ["--chdir", str(folder)]
    if filter_fd is not None:
        return [*words, "--seccomp", str(filter_fd), "--", *command]
    # Set inside: a limit on processes counts those of the user namespace it was set in.
    return [*words, "--", *limited(command, few_processes=True)]


def end_group(process: subprocess.Popen[bytes]) -> None:
    """Kill a process started in a session of its own, and whatever it began; harmless where it has ended."""
    if OWN_SESSION:
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    elif process.poll() is None:
        process.kill()


@cache
def compiled_scheme(program: Path) -> dict[str, str]:
    """Where a LilyPond of Debian has its compiled Scheme, as Guile reads it; nothing for any other.

    It looks in a folder called `${prefix}/lib/...` itself, finds none, and takes 1.9 s of the processor to start
    instead of 0.4 (Debian 12, 2.24.1).
    """
    there = sorted(program.resolve().parent.parent.glob("lib/*/lilypond/*/ccache"))
    return {"GUILE_LOAD_COMPILED_PATH": os.pathsep.join(map(str, there))} if there else {}


def environment(sandbox: Sandbox | None, folder: Path, program: Path) -> dict[str, str]:
    """What LilyPond is told of the machine: what it needs, and nothing that changes its files or messages."""
    fixed = {"LC_ALL": "C", "LANGUAGE": "en", "TZ": "UTC", **compiled_scheme(program)}
    if sandbox is not None:
        own = {"HOME": str(folder), "TMPDIR": str(folder), "XDG_CACHE_HOME": _CACHE}
        return {"PATH": "/usr/bin:/bin", **own, **fixed}
    # Fonts are the machine's: what one user has set up for fonts would change the page, and nobody would know why.
    if os.name != "posix":
        return {**{k: v for k, v in os.environ.items() if not k.startswith("FONTCONFIG_")}, **fixed}
    kept = ("PATH", "LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH")
    also = {k: v for k, v in os.environ.items() if k in kept}
    # Its lists of fonts are kept all the same: making them takes longer than a page.
    cache = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    return {**also, "HOME": str(folder), "TMPDIR": str(folder), "XDG_CACHE_HOME": cache, **fixed}


def process_filter() -> bytes | None:
    """A filter of system calls (seccomp) that lets threads begin and no process; None where we know no numbers.

    `clone3` hides its flags in memory, where a filter cannot look: it is said not to exist, and the C library then
    uses `clone`. Calls of another architecture are refused.
    """
    known = _CALLS.get(platform.machine()) if os.uname().sysname == "Linux" else None
    if known is None:
        return None
    architecture, clone, clone3, others = known
    load, equal, at_least, has, give = 0x20, 0x15, 0x35, 0x45, 0x06
    tests = [
        (equal, clone3, "absent"),
        *((equal, call, "denied") for call in others),
        (at_least, 0x40000000, "denied"),
    ]
    rows: list[tuple[int, int, str, str]] = [  # code, value, where true, where false
        (load, 4, "", ""),
        (equal, architecture, "next", "denied"),
        (load, 0, "", ""),
        *((code, value, then, "next") for code, value, then in tests),
        (equal, clone, "next", "allowed"),
        (load, 16, "", ""),
        (has, _CLONE_THREAD, "allowed", "denied"),
    ]
    ends = {"allowed": _ALLOW, "denied": _ERRNO | _EPERM, "absent": _ERRNO | _ENOSYS}
    places = {name: len(rows) + i for i, name in enumerate(ends)}

    def jump(name: str, here: int) -> int:
        return 0 if name in ("", "next") else places[name] - here - 1

    program = [
        struct.pack("=HBBI", code, jump(a, i), jump(b, i), value) for i, (code, value, a, b) in enumerate(rows)
    ]
    return b"".join((*program, *(struct.pack("=HBBI", give, 0, 0, value) for value in ends.values())))


def find_sandbox(way: str, program: Path) -> Sandbox | str | None:
    """The sandbox for a LilyPond, as `way` (one of WAYS) asks; a reason where it is demanded and cannot be had.

    That LilyPond worked in it once is remembered in the user's cache: to try costs a start of LilyPond. Whether
    anything begins in it is tried each time, in some milliseconds: in a container it may be forbidden.
    """
    if way == "never":
        return None
    found = shutil.which("bwrap") if os.name == "posix" else None
    if found is None:
        return "bubblewrap (bwrap) is not installed" if way == "always" else None
    bwrap = Path(found)
    mark, fonts = _mark(bwrap, program)
    if (
        mark is not None
        and _fresh(mark)
        and _run(Sandbox(bwrap=bwrap), ["/bin/sh", "-c", ":"], program) is not None
    ):
        return Sandbox(bwrap=bwrap, fonts=fonts)
    if not _works(Sandbox(bwrap=bwrap), program):
        return f"bubblewrap ({bwrap}) cannot run LilyPond here" if way == "always" else None
    if mark is not None and fonts is not None and _warm(Sandbox(bwrap=bwrap), program, fonts):
        mark.touch()
        return Sandbox(bwrap=bwrap, fonts=fonts)
    return Sandbox(bwrap=bwrap)


def _parts_of(program: Path) -> tuple[Path, ...]:
    """What of an installation must be seen; nothing of one that lies among the system's programs."""
    real = program.resolve()
    ways = dict.fromkeys((program.absolute(), real))
    lone = [path for path in ways if not path.is_relative_to("/usr")]
    beside = [] if real.is_relative_to("/usr") else [real.parent.parent / part for part in _PARTS]
    return (*lone, *(path for path in beside if path.is_dir()))


def _works(sandbox: Sandbox, program: Path) -> bool:
    answer = _run(sandbox, [str(program.absolute()), "--version"], program)
    return answer is not None and b"LilyPond" in answer


def _warm(sandbox: Sandbox, program: Path, fonts: Path) -> bool:
    """Let a run of an empty score write the lists of fonts, which every later run only reads: saves 0.15 s each."""
    try:
        for folder in (fonts.parent.parent, fonts.parent, fonts):
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)  # whatever the user's umask lets others do
        writable = ("--bind", str(fonts), f"{_CACHE}/fontconfig")
        score = b'\\version "2.24.0"\n\\score { { c1^"." } }\n'
        return (
            _run(sandbox, [str(program.absolute()), "--loglevel=ERROR", "-"], program, writable, score) is not None
        )
    except OSError:
        return False


def _run(
    sandbox: Sandbox, command: list[str], program: Path, more: tuple[str, ...] = (), text: bytes = b""
) -> bytes | None:
    """What a command inside says; None where it does not end well."""
    with tempfile.TemporaryDirectory(prefix="gesturesmith-", dir=paths.temporary()) as name:
        folder = Path(name)
        words = inside(sandbox, command, folder, program)
        place = words.index("--bind")
        words[place:place] = more
        try:
            process = subprocess.Popen(
                limited(words),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=environment(sandbox, folder, program),
                start_new_session=OWN_SESSION,
            )
        except OSError:
            return None
        with process:
            try:
                answer, _ = process.communicate(text, timeout=_ANSWER_S)
            except subprocess.TimeoutExpired:
                return None
            finally:
                if process.returncode is None:
                    end_group(process)
        return answer if process.returncode == 0 else None


def _mark(bwrap: Path, program: Path) -> tuple[Path | None, Path | None]:
    """The file that says this pair has worked, and the folder of its font lists, in the user's cache.

    None where others can write there: what they put among the fonts would be read in every sandbox.
    """
    cache = paths.user_cache()
    if cache is None:
        return None, None
    try:
        facts = [(str(p), p.stat().st_mtime_ns, p.stat().st_size) for p in (bwrap, program.resolve())]
        folder = cache / "sandbox" / hashlib.sha256(repr((facts, str(paths.templates()))).encode()).hexdigest()[:16]
        if any(paths.shared(one) for one in (folder.parent, folder, folder / "fonts")):
            return None, None
    except OSError:
        return None, None
    return folder / "works", folder / "fonts"


def _fresh(mark: Path) -> bool:
    """Whether it was tried, and no fonts were installed since."""
    try:
        made = mark.stat().st_mtime
        return all(os.stat(f).st_mtime <= made for f in _FONTS if os.path.isdir(f))
    except OSError:
        return False


def _counts_processes_apart() -> bool:
    """Whether processes inside are counted apart from the user's other ones (Linux 5.14)."""
    system = os.uname()
    if system.sysname != "Linux":
        return False
    numbers = system.release.replace("-", ".").split(".")
    return tuple(int(n) if n.isdigit() else 0 for n in numbers[:2]) >= (5, 14)
