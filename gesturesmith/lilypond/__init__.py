"""LilyPond: finding it, starting it early, running it, reading what it says. The only subprocess."""

from gesturesmith.lilypond.log import Failure, Message, failure
from gesturesmith.lilypond.pool import Press
from gesturesmith.lilypond.program import ENVIRONMENT, OLDEST, LilyPond, Missing, find
from gesturesmith.lilypond.run import PNG_DPI, Job, Run, Waiting, groups, start

__all__ = [
    "ENVIRONMENT",
    "OLDEST",
    "PNG_DPI",
    "Failure",
    "Job",
    "LilyPond",
    "Message",
    "Missing",
    "Press",
    "Run",
    "Waiting",
    "failure",
    "find",
    "groups",
    "start",
]
