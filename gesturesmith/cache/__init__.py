"""What is made already, kept by what it was made from, so that only what changed is done again."""

from gesturesmith.cache.keys import digest, file_digest, fingerprint, result_key
from gesturesmith.cache.plain import Plain, plain
from gesturesmith.cache.store import MOST_BYTES, Store, Usage, nothing, open_store

__all__ = [
    "MOST_BYTES",
    "Plain",
    "Store",
    "Usage",
    "digest",
    "file_digest",
    "fingerprint",
    "nothing",
    "open_store",
    "plain",
    "result_key",
]
