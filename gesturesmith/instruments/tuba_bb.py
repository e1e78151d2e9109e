"""The tuba in B-flat, four valves: sounding as written."""

from gesturesmith.instruments._tuba import tuba

CALLED = ("Bb tuba", "BBb tuba", "contrabass tuba", "Kontrabasstuba", "sousaphone", "Sousaphon")
INSTRUMENT = tuba(
    key="tuba-bb",
    name="four-valve tuba in B-flat",
    names={
        "de": "Kontrabasstuba in B mit vier Ventilen",
        "fr": "Tuba contrebasse en si bémol à quatre pistons",
        "it": "Tuba contrabbassa in si bemolle a quattro cilindri",
    },
    part_name="Tuba in B♭",
    part_names={"de": "Tuba in B", "fr": "Tuba en si bémol", "it": "Tuba in si bemolle"},
    lowest="Bb0",
    highest="C5",
    open_note="Bb1",
)
