"""Many files over an executor: what is made already is left, the rest is made and delivered."""

from gesturesmith.batch.manifest_file import manifest
from gesturesmith.batch.running import run
from gesturesmith.batch.types import Done, Made, Setup, Work

__all__ = ["Done", "Made", "Setup", "Work", "manifest", "run"]
