"""Over 200 strings, combined from parts, that would do harm or fail if they became LilyPond text."""

from __future__ import annotations

SIGNAL = "CANARY"
_WARN = f'(ly:warning "{SIGNAL}")'

# Payloads that run if LilyPond reads them as code.
PAYLOADS = (
    f"#{_WARN}",
    f"${_WARN}",
    f"#(begin {_WARN} 1)",
    f"#@(begin {_WARN} (list))",
    f"#(let ((out (open-file \"canary\" \"w\"))) {_WARN})",
    f"#(catch #t (lambda () (system \"touch canary\") {_WARN}) (lambda e {_WARN}))",
    f"#(eval-string \"(ly:warning \\\"{SIGNAL}\\\")\")",
    f"#(ly:parser-include-string \"#(ly:warning \\\"{SIGNAL}\\\")\")",
)  # fmt: skip

# Ways out of the context of a text: out of a string, a markup, a comment, a block.
WRAPS = (
    "{}",
    '" {} "',
    '\\" {} \\"',
    '\\\\" {} \\\\"',
    '"}} {} {{"',
    '" }} }} {} \\markup {{ "',
    "}} {} {{",
    ">> }} {} {{ <<",
    "%{{ {} %}}",
    "%}}\n{}\n%{{",
    "\n{}\n",
    "\r\n{}",
    "\u2028{}\u2029",
    "\x85{}",
    "\x00{}",
    "\x0b{}\x0c",
    "\\markup {{ {} }}",
    "\\column {{ \"a\" }} {} \\line {{ \"b\" }}",
    "\u202e{}\u202c",
    "\ufeff{}",
)  # fmt: skip

# Not payloads, but words, characters and bytes with a special meaning to LilyPond or a file format.
STRANGE = (
    '"', "\\", '\\"', '\\\\"', '"""', "'", "''", "`", "``", "#", "##", "##f", "##t", "#f", "#'()", "#t", "$",
    "$$", "$defaultheader", "%", "%{", "%}", "%%", "{", "}", "{{", "}}", "{}", "<", ">", "<<", ">>", "<<>>",
    "|", "||", "~", "\\~", "_", "__", "^", "-", "--", "->", "(", ")", "\\(", "\\)", "[", "]", "!", "\\!", "\\<",
    "\\>", "@", "@@", "&", "&amp;", "&lt;b&gt;", "<b>bold</b>", "<!-- x -->", "]]>", "<![CDATA[x]]>", "<?xml?>",
    "</svg><script>alert(1)</script>", "=", "*", "/", "//", "1/0", ":", ";", ",", ".", "..", "...",
    "../../etc/passwd", "/etc/passwd", "C:\\new\\table", "$(exit 1)", "`id`", "; rm -rf .", "| cat", "%n%s%x",
    "%(name)s", "{title}", "{0}", "{composer.__class__}", "\\include \"/etc/passwd\"", "\\version \"9.99.9\"",
    "\\score { c'4 }", "\\book { }", "\\bookOutputName \"other\"", "\\bookOutputSuffix \"x\"",
    "\\language \"deutsch\"", "\\header { title = \"x\" }", "\\paper { }", "\\layout { }", "\\markup \"x\"",
    "\\bold x", "\\epsfile #X #5 \"x\"", "\\postscript \"quit\"", "\\verbatim-file \"/etc/passwd\"",
    "\\with-url \"file:///etc/passwd\" x", "\\fromproperty #'header:title", "\\transpose c d { c }",
    "\\set Staff.x = 1", "\\override NoteHead.color = #red", "\\revert", "\\once", "\\new Staff",
    "\\repeat unfold 9999 c", "\\applyMusic #f", "\\gsMark \"9\"", "\\gsNoteText x", "\\skip 1", "\\bar \"||\"",
    "\\break", "\\pageBreak", "\\footnote", "\\eval #f", "\\void", "c", "c'4", "cis", "des'", "fqs''", "r4",
    "R1", "s1", "q", "es", "H4", "bf", "G4 ~~ C5", "xG4@2", "rest 4", "\t", "\ttab\ttab", "  two  spaces  ",
    "\n", "\r", "two\nlines", "\x00", "a\x00b", "\x07bell", "\x1b[31mred\x1b[0m", "\x7f", "\x80\x9f", "\u2028",
    "\u2029", "\u200b", "\u200e\u200f", "\u202eesrever\u202c", "\u2066isolate\u2069", "\ufeff", "\u00ad",
    "\ufffe\uffff", "\ue000", "\U000f0000", "\ud800", "\udfff lone", "a\ud83dx", "a\u0301e\u0308", "\u0301",
    "Z" + "\u0335" * 40, "שלום", "مرحبا", "‏mixed עברית and Latin", "雾号", "霧笛の合図", "안개", "Туман", "Ὁμίχλη",
    "🎺", "𝄞", "ﬁ ligature", "ß İ ı", "“curly”", "„unten“", "«guillemets»", "‘single’", "– —", "…", "½",
    "C♯ D♭ E♮",
    "\u00a0no\u00a0break", "x" * 600, "long " * 120, "W" * 200, "__class__", "None", "True", "NaN", "-1",
    "1e999", "0x10", "''", "' or '1'='1", "${jndi:x}", "%00", "%0a", "\\x41", "\\u0041", "\\n", "\\0",
)  # fmt: skip

# Every way out with some payloads, and every payload with some ways out.
HARMFUL = tuple(
    wrap.format(payload) for i, wrap in enumerate(WRAPS) for j, payload in enumerate(PAYLOADS) if (i + j) % 3 == 0
)
ALL = tuple(dict.fromkeys((*HARMFUL, *STRANGE)))
