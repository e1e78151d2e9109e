"""The store: entries come back as stored, damaged ones count as missing, and no failure stops a run."""

from __future__ import annotations

import hashlib
import os
import stat
import threading
import time

import pytest

from gesturesmith.cache import Store, digest, file_digest, fingerprint, null_store, open_store

KEY = digest("something")


def entries(folder):
    return sorted(p for p in folder.glob("??/*") if p.is_file())


def test_what_is_put_is_got(tmp_path):
    store = Store(tmp_path / "cache")
    assert store.get(KEY) is None
    assert store.hash_of(KEY) is None
    store.put(KEY, b"music")
    assert store.get(KEY) == Store(tmp_path / "cache").get(KEY) == b"music"
    assert store.hash_of(KEY) == hashlib.sha256(b"music").hexdigest()
    store.put(KEY, b"other")
    assert store.get(KEY) == b"other"
    assert store.problem == ""


def test_it_is_for_the_user_alone_and_marked_for_backups(tmp_path):
    store = Store(tmp_path / "deep" / "cache")
    store.put(KEY, b"music")
    assert stat.S_IMODE((tmp_path / "deep" / "cache").stat().st_mode) == 0o700
    assert [stat.S_IMODE(p.stat().st_mode) for p in entries(tmp_path / "deep" / "cache")] == [0o600]
    # bford.info/cachedir: the file begins with these 43 bytes
    tag = (tmp_path / "deep" / "cache" / "CACHEDIR.TAG").read_text()
    assert tag.startswith("Signature: 8a477f597d28d172789f06886806bc55")


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[:-1],  # cut off, as by a power failure
        lambda data: data[:-1] + b"!",
        lambda data: b"",
        lambda data: data.replace(b"gesturesmith-kept 1", b"gesturesmith-kept 2"),  # another version's
        lambda data: b"\x00" * len(data),
        lambda data: data[:40],
    ],
)
def test_what_is_damaged_or_foreign_is_not_there_and_is_replaced(tmp_path, damage):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    entry.write_bytes(damage(entry.read_bytes()))
    assert store.get(KEY) is None
    store.put(KEY, b"music")
    assert store.get(KEY) == b"music"
    assert entries(tmp_path) == [entry]


def test_a_folder_in_the_place_of_an_entry(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    entry.unlink()
    entry.mkdir()
    assert store.get(KEY) is None
    assert store.hash_of(KEY) is None
    store.put(KEY, b"music")
    assert store.problem
    assert list(entry.parent.iterdir()) == [entry]


@pytest.mark.parametrize("place", ["/proc/nowhere/cache", "FILE/cache", "FILE"])
def test_where_nothing_can_be_written_it_says_so_and_keeps_nothing(tmp_path, place):
    (tmp_path / "file").write_text("in the way")
    store = Store(tmp_path.__class__(place.replace("FILE", str(tmp_path / "file"))))
    store.put(KEY, b"music")
    assert store.problem
    assert store.get(KEY) is None
    store.put(KEY, b"music")
    store.trim()
    assert store.usage().entries == 0


def test_a_disk_that_is_full_leaves_nothing_half_written(tmp_path, monkeypatch):
    store = Store(tmp_path)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    store.put(KEY, b"music")
    assert "the disk is full" in store.problem
    assert entries(tmp_path) == []


def test_a_folder_that_others_can_write_is_not_trusted(tmp_path):
    (tmp_path / "cache").mkdir(mode=0o777)
    (tmp_path / "cache").chmod(0o777)
    store = Store(tmp_path / "cache")
    store.put(KEY, b"music")
    assert "can be written by others" in store.problem
    assert store.get(KEY) is None
    assert entries(tmp_path / "cache") == []


def many(store, count=400, size=1000):
    keys = [digest("many", str(n)) for n in range(count)]
    for key in keys:
        store.put(key, bytes(size))
    return keys


def test_what_was_not_used_for_longest_goes_first(tmp_path):
    """Enough entries that each of the store's folders has several; half of them were used a minute ago."""
    store = Store(tmp_path, most=300_000)
    keys = many(store)
    old, new = keys[::2], keys[1::2]
    now = time.time()
    for key, path in {p.name: p for p in entries(tmp_path)}.items():
        used = now - (9000 if key in old else 60)
        os.utime(path, (used, used))
    store.trim()
    left = {p.name for p in entries(tmp_path)}
    assert sum(p.stat().st_size for p in entries(tmp_path)) <= 300_000
    assert len(left) > 150
    assert len(left & set(new)) > 2 * len(left & set(old))
    # In no folder was a new one removed while an old one stayed.
    for folder in {p.parent.name for p in entries(tmp_path)}:
        mine = {key for key in keys if f"{int(key[:2], 16) % 64:02x}" == folder}
        assert not (mine & left & set(old)) or mine & set(new) <= left


def test_use_keeps_an_entry_young(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    before = entry.stat().st_mtime
    os.utime(entry, (1, 1))
    store.get(KEY)
    assert entry.stat().st_mtime >= before


def test_one_larger_than_its_share_stays_while_it_is_new(tmp_path):
    store = Store(tmp_path, most=64_000)
    store.put(KEY, bytes(10_000))
    store.trim()
    assert store.get(KEY) == bytes(10_000)


def test_what_a_killed_run_left_goes(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    for name, age in (("0" * 12, 9000), ("1" * 12, 10)):
        part = entry.with_name(f"{entry.name}.{name}.part")
        part.write_bytes(b"half")
        os.utime(part, (time.time() - age,) * 2)
    store.put(KEY, b"music")
    store.trim()
    assert [p.name[64:] for p in entries(tmp_path)] == ["", f".{'1' * 12}.part"]


def test_clear_takes_only_what_is_the_stores(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    mine = entry.with_name("letter.txt")
    mine.write_text("mine")
    (tmp_path / "letter.txt").write_text("mine")
    usage = store.usage()
    assert (usage.entries, usage.size) == (1, len(b"music") + 85)
    assert store.clear() == 1
    assert store.usage().entries == 0
    assert mine.exists()
    assert (tmp_path / "letter.txt").exists()


def test_two_at_once(tmp_path):
    """Readers get a complete entry or none while others write."""
    good = {bytes([n]) * 5000 for n in range(4)}
    wrong = []

    def work(data):
        store = Store(tmp_path)
        for _ in range(100):
            store.put(KEY, data)
            if store.get(KEY) not in good:
                wrong.append(store.problem)

    threads = [threading.Thread(target=work, args=(data,)) for data in good]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert wrong == []
    assert len(entries(tmp_path)) == 1


def test_the_users_own(tmp_path, monkeypatch):
    monkeypatch.setenv("GESTURESMITH_CACHE", str(tmp_path / "mine"))
    assert open_store().folder == tmp_path / "mine" / "results"
    monkeypatch.delenv("GESTURESMITH_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "xdg"))
    assert open_store().folder == tmp_path / "xdg" / "gesturesmith" / "results"


def test_nothing_keeps_nothing():
    store = null_store()
    store.put(KEY, b"music")
    store.trim()
    assert store.get(KEY) is None
    assert store.problem == ""
    assert store.clear() == 0


def test_where_a_part_ends_makes_a_difference():
    assert digest("ab", "c") != digest("a", "bc")
    assert digest("ab") != digest("ab", "")
    assert digest("ab") == digest(b"ab")
    assert len(digest("\udcff")) == 64


def test_the_fingerprint_is_of_sources_and_templates(tmp_path, monkeypatch):
    from gesturesmith.cache import keys

    before = fingerprint()
    for name in ("page.ily", "gesturesmith.ily"):
        (tmp_path / name).write_text("% changed")
    monkeypatch.setattr(keys.paths, "templates", lambda: tmp_path)
    keys.fingerprint.cache_clear()
    other = fingerprint()
    (tmp_path / "page.ily").write_text("% changed again")
    keys.fingerprint.cache_clear()
    third = fingerprint()
    keys.fingerprint.cache_clear()
    assert len({before, other, third}) == 3


def test_the_hash_of_a_file(tmp_path):
    (tmp_path / "a").write_bytes(b"music")
    assert file_digest(tmp_path / "a") == hashlib.sha256(b"music").hexdigest()
    assert file_digest(tmp_path) is None
    assert file_digest(tmp_path / "gone") is None
    assert file_digest(tmp_path / "a\0b") is None


def test_a_pipe_in_the_place_of_an_entry_is_not_waited_for(tmp_path):
    store = Store(tmp_path)
    store.put(KEY, b"music")
    (entry,) = entries(tmp_path)
    entry.unlink()
    os.mkfifo(entry)
    assert store.get(KEY) is None
    assert store.hash_of(KEY) is None
    store.put(KEY, b"music")
    assert store.get(KEY) == b"music"


@pytest.mark.parametrize("key", ["", "zz", "../../secret", KEY + "\n", KEY.upper()])
def test_what_is_no_key_finds_nothing(tmp_path, key):
    """Anybody may have written a record, with any names in it."""
    store = Store(tmp_path)
    assert store.get(key) is None
    assert store.hash_of(key) is None
    store.put(key, b"music")
    assert entries(tmp_path) == []
