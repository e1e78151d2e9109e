"""Pictures of what a gesture or passage asks and what instrument and player can do, as SVG.

`sketch` draws gestures, `strain` passages; `svg` is for other pictures too, and needs neither.
"""
