"""The pages that several groups rest on."""

BAND = "nemusicpub.com/grading"
CITY = "reykjavik.is, learning objectives"
OURS = "between the grades of published syllabuses and the instrument's usual range; the number is ours"
EVERY = "all keys in use"
