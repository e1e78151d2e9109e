"""The bass tuba in F, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

CALLED = ("F tuba", "bass tuba", "Basstuba")
INSTRUMENT = tuba(
    key="tuba-f",
    name="four-valve bass tuba in F",
    names={
        "de": "Basstuba in F mit vier Ventilen",
        "fr": "Tuba basse en fa à quatre pistons",
        "it": "Tuba bassa in fa a quattro cilindri",
    },
    part_name="Tuba in F",
    part_names={"de": "Tuba in F", "fr": "Tuba en fa", "it": "Tuba in fa"},
    lowest="C1",
    highest="D5",
    open_note="F2",
)
