"""LilyPond: finding it, starting it early, running it, reading its messages. The only subprocess."""

from gesturesmith.lilypond.log import Failure, Message, failure
from gesturesmith.lilypond.pool import LilyPondPool
from gesturesmith.lilypond.program import ENVIRONMENT, OLDEST, LilyPond, MissingLilyPond, find
from gesturesmith.lilypond.run import PNG_DPI, Job, RunResult, WaitingProcess, groups, start

__all__ = [
    "ENVIRONMENT",
    "OLDEST",
    "PNG_DPI",
    "Failure",
    "Job",
    "LilyPond",
    "LilyPondPool",
    "Message",
    "MissingLilyPond",
    "RunResult",
    "WaitingProcess",
    "failure",
    "find",
    "groups",
    "start",
]
