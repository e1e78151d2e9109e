"""Many files on an executor: what exists is left alone, the rest is made and delivered."""

from gesturesmith.batch.manifest_file import manifest_json
from gesturesmith.batch.running import run
from gesturesmith.batch.types import BatchSetup, Build, BuildResult, OutputRecord

__all__ = ["BatchSetup", "Build", "BuildResult", "OutputRecord", "manifest_json", "run"]
