"""How a gesture is played: fingerings, partials and slides for every note, before any rule judges them."""

from gesturesmith.realise.gesture import realise

__all__ = ["realise"]
