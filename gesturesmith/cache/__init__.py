"""Earlier results, cached by everything they were made from, so that only what changed is redone."""

from gesturesmith.cache.keys import digest, file_digest, file_stamp, fingerprint, result_key
from gesturesmith.cache.plain import ValueFormat, value_format
from gesturesmith.cache.store import MAX_BYTES, CacheUsage, Store, null_store, open_store

__all__ = [
    "MAX_BYTES",
    "CacheUsage",
    "Store",
    "ValueFormat",
    "digest",
    "file_digest",
    "file_stamp",
    "fingerprint",
    "null_store",
    "open_store",
    "result_key",
    "value_format",
]
