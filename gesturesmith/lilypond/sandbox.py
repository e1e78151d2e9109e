"""The second line of defence: what LilyPond may do, even if hostile code should ever reach it.

LilyPond runs any Scheme in a document, and no user text gets into ours as code (`lytext`). The sandbox is there in
case that should ever fail. Limits on time, memory and file size apply on every POSIX system. If bubblewrap is
installed, LilyPond sees only the system's programs and fonts, itself, our templates and its working folder; it has
no network and no privileges, and with the cairo backend it cannot start processes.
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
from gesturesmith.kinds import SandboxMode
from gesturesmith.values import frozen

OWN_SESSION = os.name == "posix"

CPU_S = 900  # more wall-clock time than any job gets; ends what outlives even us
MEMORY_KB = 4 * 1024 * 1024  # address space; a book of 500 gestures takes a quarter of it
FILE_BLOCKS = 512 * 1024  # 256 MB per file if a block is 512 bytes (POSIX), 512 MB if it is 1024
FOLDER_BYTES = 512 * 1024 * 1024  # total output of a run; checked while waiting for it
MAX_ENTRIES = 20_000  # files and folders of a run: fifty gestures in every format make some hundreds
LOG_BYTES = 16 * 1024 * 1024  # messages of a run
_PROCESSES = 64  # with a backend that needs Ghostscript
_ANSWER_S = 30

# What a system's programs need; missing ones are skipped.
_SYSTEM = ("/usr", "/bin", "/sbin", "/lib", "/lib64", "/etc/fonts", "/etc/ld.so.cache", "/var/cache/fontconfig")
_FONTS = ("/usr/share/fonts", "/usr/local/share/fonts")
# The parts of a separate LilyPond installation, beside its `bin`. Not the whole folder: it could be a home.
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

# Linux system call numbers: architecture, clone, clone3, then fork, vfork, unshare if they exist (kernel headers
# audit.h and unistd.h).
_CALLS = {
    "x86_64": (0xC000003E, 56, 435, (57, 58, 272)),
    "aarch64": (0xC00000B7, 220, 435, (97,)),
}
# Those by which a process reaches another: kill, tkill, tgkill, rt_sigqueueinfo, rt_tgsigqueueinfo,
# pidfd_send_signal, ptrace, process_vm_readv, process_vm_writev, pidfd_getfd, and prlimit64, which sets limits.
_OTHERS = {
    "x86_64": ((62, 200, 234, 129, 297, 424, 101, 310, 311, 438), 302),
    "aarch64": ((129, 130, 131, 138, 240, 424, 117, 270, 271, 438), 261),
}
_CLONE_THREAD = 0x00010000
_ALLOW, _ERRNO, _EPERM, _ENOSYS = 0x7FFF0000, 0x00050000, 1, 38


@frozen(kw_only=True)
class Sandbox:
    """A working bubblewrap. `fonts`: a folder of font lists made inside, read-only there; None without."""

    bwrap: Path
    fonts: Path | None = None

    @property
    def words(self) -> str:
        return f"bubblewrap ({self.bwrap}): no network, no home files, limited processes"


def limited(command: list[str], *, few_processes: bool = False) -> list[str]:
    """The command with limits on time, memory and file size, set by a shell: threads and `preexec_fn` do not mix.

    `few_processes`: only inside a sandbox, where processes are counted separately from the user's others.
    """
    if os.name != "posix" or not os.access("/bin/sh", os.X_OK):
        return command
    # Each separately: one that a system lacks must not disable the others. Core dumps would contain users' texts.
    some = [f"ulimit -t {CPU_S}", f"ulimit -f {FILE_BLOCKS}", f"ulimit -v {MEMORY_KB}", "ulimit -c 0"]
    if few_processes and _counts_processes_apart():
        some.append(f"{{ ulimit -u {_PROCESSES} || ulimit -p {_PROCESSES}; }}")
    return ["/bin/sh", "-c", "; ".join(f"{one} 2>/dev/null" for one in some) + '; exec "$@"', "sh", *command]


def inside(
    sandbox: Sandbox, command: list[str], folder: Path, program: Path, *, filter_fd: int | None = None
) -> list[str]:
    """The command as bubblewrap runs it, in its working folder. `program`: the path of LilyPond.

    It must be started in its own session and ended by `end_group`. bubblewrap ties its inner process to the outer
    one (`--die-with-parent`) only some milliseconds after its start; killed before that, it would leave the inner
    one behind. So there is no new session inside (`--new-session`): its first process stays in the group, and
    everything inside ends with it. There is no terminal to protect, since the session never had one.

    `filter_fd`: a descriptor to read `process_filter` from; None allows processes, but only a few.
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
    # Files in these would be in memory, beyond all limits: there is one place to write, whose size is limited.
    for place in ("/dev", "/tmp", "/"):
        words += ["--remount-ro", place]
    words += ["--chdir", str(folder)]
    if filter_fd is not None:
        return [*words, "--seccomp", str(filter_fd), "--", *command]
    # Set inside: a limit on processes counts those of the user namespace in which it is set.
    return [*words, "--", *limited(command, few_processes=True)]


def end_group(process: subprocess.Popen[bytes]) -> None:
    """Kill a process started in its own session and all its children; does nothing if it has ended."""
    if OWN_SESSION:
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    elif process.poll() is None:
        process.kill()


@cache
def compiled_scheme(program: Path) -> dict[str, str]:
    """The compiled Scheme of Debian's LilyPond, as a path for Guile; nothing for any other LilyPond.

    By itself it looks in a folder literally called `${prefix}/lib/...`, finds none, and needs 1.9 s of processor
    time to start instead of 0.4 (Debian 12, 2.24.1).
    """
    there = sorted(program.resolve().parent.parent.glob("lib/*/lilypond/*/ccache"))
    return {"GUILE_LOAD_COMPILED_PATH": os.pathsep.join(map(str, there))} if there else {}


def environment(sandbox: Sandbox | None, folder: Path, program: Path) -> dict[str, str]:
    """LilyPond's environment: what it needs, and nothing that changes its output or messages."""
    fixed = {"LC_ALL": "C", "LANGUAGE": "en", "TZ": "UTC", **compiled_scheme(program)}
    if sandbox is not None:
        own = {"HOME": str(folder), "TMPDIR": str(folder), "XDG_CACHE_HOME": _CACHE}
        return {"PATH": "/usr/bin:/bin", **own, **fixed}
    # Only the machine's fonts: a user's font settings would change the page, and nobody would know why.
    if os.name != "posix":
        return {**{k: v for k, v in os.environ.items() if not k.startswith("FONTCONFIG_")}, **fixed}
    kept = ("PATH", "LD_LIBRARY_PATH", "DYLD_LIBRARY_PATH")
    also = {k: v for k, v in os.environ.items() if k in kept}
    # Its font lists are still cached: making them takes longer than a page.
    cache = os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    return {**also, "HOME": str(folder), "TMPDIR": str(folder), "XDG_CACHE_HOME": cache, **fixed}


def process_filter(*, alone: bool = False) -> bytes | None:
    """A system call filter (seccomp) that allows threads but no processes; None if the call numbers are unknown.

    `clone3` has its flags in memory, where a filter cannot see them: the filter reports it as missing, and the C
    library then uses `clone`. Calls of another architecture are refused. `alone`: neither may it end other
    processes, look into them or set their limits.
    """
    known = _CALLS.get(platform.machine()) if os.uname().sysname == "Linux" else None
    if known is None:
        return None
    architecture, clone, clone3, others = known
    load, equal, at_least, has, give = 0x20, 0x15, 0x35, 0x45, 0x06
    reaching, limiting = _OTHERS[platform.machine()] if alone else ((), None)
    tests = [
        (equal, clone3, "absent"),
        *((equal, call, "denied") for call in (*others, *reaching)),
        (at_least, 0x40000000, "denied"),
    ]
    rows: list[tuple[int, int, str, str | int]] = [  # code, value, jump if true, jump if false (or over how many)
        (load, 4, "", ""),
        (equal, architecture, "next", "denied"),
        (load, 0, "", ""),
        *((code, value, then, "next") for code, value, then in tests),
        # Its own limits have the process number 0.
        *([(equal, limiting, "next", 2), (load, 16, "", ""), (equal, 0, "allowed", "denied")] if limiting else ()),
        (equal, clone, "next", "allowed"),
        (load, 16, "", ""),
        (has, _CLONE_THREAD, "allowed", "denied"),
    ]
    ends = {"allowed": _ALLOW, "denied": _ERRNO | _EPERM, "absent": _ERRNO | _ENOSYS}
    places = {name: len(rows) + i for i, name in enumerate(ends)}

    def jump(name: str | int, here: int) -> int:
        if isinstance(name, int):
            return name
        return 0 if name in ("", "next") else places[name] - here - 1

    program = [
        struct.pack("=HBBI", code, jump(a, i), jump(b, i), value) for i, (code, value, a, b) in enumerate(rows)
    ]
    return b"".join((*program, *(struct.pack("=HBBI", give, 0, 0, value) for value in ends.values())))


def find_sandbox(way: SandboxMode, program: Path) -> Sandbox | str | None:
    """The sandbox for a LilyPond, as `way` asks; a reason if it is required but not available.

    The user's cache records that LilyPond has worked in it, since trying costs a start of LilyPond. Whether
    anything starts in it is tried every time, in some milliseconds: a container may forbid it.
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
    """The parts of an installation that must be visible; none if it is among the system's programs."""
    real = program.resolve()
    ways = dict.fromkeys((program.absolute(), real))
    lone = [path for path in ways if not path.is_relative_to("/usr")]
    beside = [] if real.is_relative_to("/usr") else [real.parent.parent / part for part in _PARTS]
    return (*lone, *(path for path in beside if path.is_dir()))


def _works(sandbox: Sandbox, program: Path) -> bool:
    answer = _run(sandbox, [str(program.absolute()), "--version"], program)
    return answer is not None and b"LilyPond" in answer


def _warm(sandbox: Sandbox, program: Path, fonts: Path) -> bool:
    """Run an empty score to write the font lists, which later runs only read: saves 0.15 s each."""
    try:
        for folder in (fonts.parent.parent, fonts.parent, fonts):
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)  # whatever the user's umask allows others
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
    """The output of a command run inside; None if it fails."""
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
    """The file that records that this pair has worked, and the folder of its font lists, in the user's cache.

    None if others can write there: anything they add to the fonts would be read in every sandbox.
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
    """Whether it was tried, and no fonts have been installed since."""
    try:
        made = mark.stat().st_mtime
        return all(os.stat(f).st_mtime <= made for f in _FONTS if os.path.isdir(f))
    except OSError:
        return False


def _counts_processes_apart() -> bool:
    """Whether processes inside are counted separately from the user's others (Linux 5.14)."""
    system = os.uname()
    if system.sysname != "Linux":
        return False
    numbers = system.release.replace("-", ".").split(".")
    return tuple(int(n) if n.isdigit() else 0 for n in numbers[:2]) >= (5, 14)
