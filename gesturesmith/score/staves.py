"""Lines of music that sound together: the parts of a passage, or a single one."""

from __future__ import annotations

from gesturesmith.model.piece import Settings
from gesturesmith.score.music import Music
from gesturesmith.values import frozen


@frozen(kw_only=True)
class Staff:
    """The line of one part.

    name, short   as printed before it: on its first system, and on later ones
    player        which of two divided players, as printed; "" for all
    settings      those of its part: instrument, wording, the forms of accidentals
    """

    name: str
    short: str
    player: str = ""
    settings: Settings
    music: Music


# From the top of the page.
type System = tuple[Staff, ...]


def alone(music: Music, settings: Settings) -> System:
    """The only line of a part."""
    name = settings.part_name(settings.wording)
    return (Staff(name=name, short=settings.instrument.abbreviation, settings=settings, music=music),)
