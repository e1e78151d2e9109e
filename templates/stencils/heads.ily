%% Noteheads and heights. Each command stands before a note and is for that note alone; they may be combined.

%% About this pitch: an x (SMuFL noteheadXBlack, noteheadXHalf, noteheadXWhole).
gsX = \once \override NoteHead.style = #'cross
gsDiamond = \once \override NoteHead.style = #'harmonic-mixed
gsSlash = \once \override NoteHead.style = #'slash

%% As high, as low as the player can: a triangle that points there, filled as the note value asks. The font has the
%% one that points up; the other is drawn, for stems that go up, as they do at the bottom of a staff.
#(define (gs:triangle-down grob)
   (let* ((unit (ly:staff-symbol-staff-space (ly:grob-object grob 'staff-symbol)))
          (open (< (ly:grob-property grob 'duration-log 2) 2))
          (w (* 0.62 unit)) (h (* 0.52 unit)))
     (make-path-stencil (list 'moveto 0 h 'lineto (* 2 w) h 'lineto w (- h) 'closepath)
                        (* (if open 0.16 0.1) unit) 1 1 (not open))))
gsTriangleUp = \once \override NoteHead.style = #'do
gsTriangleDown = \once \override NoteHead.stencil = #gs:triangle-down

%% A point that a line reaches: a black head without stem or value, at its time.
gsStemless = {
  \once \override NoteHead.duration-log = #2
  \once \omit Stem
  \once \omit Flag
  \once \omit Dots
  \once \override Stem.length = #0
}

%% Where a line stops: a small head in brackets, not attacked.
#(define (gs:bracketed grob)
   (let* ((head (ly:note-head::print grob))
          (font (ly:grob-default-font grob))
          (glyph (lambda (name) (ly:stencil-scale (ly:font-get-glyph font name) 0.8 0.8)))
          (with-left (ly:stencil-combine-at-edge head X LEFT (glyph "accidentals.leftparen") 0.12)))
     (ly:stencil-combine-at-edge with-left X RIGHT (glyph "accidentals.rightparen") 0.12)))
gsStops = {
  \gsStemless
  \once \override NoteHead.stencil = #gs:bracketed
  \once \override NoteHead.font-size = #-3
  \once \override Accidental.font-size = #-3
  \once \override AccidentalCautionary.font-size = #-3
}

gsSmall = {
  \once \override NoteHead.font-size = #-3
  \once \override Accidental.font-size = #-3
}

%% A height without pitch: a place on the staff in half staff spaces. No accidental, no ledger lines; stays where
%% it is when the music is transposed.
gsHeight =
#(define-music-function (position) (number?)
   #{ \once \override NoteHead.details.gs-height = #position
      \once \override NoteHead.no-ledgers = ##t
      \gsBare #})

%% No accidental, whatever the pitch.
gsBare = {
  \once \omit Accidental
  \once \omit AccidentalCautionary
}

%% Time passes, nothing is printed.
gsHidden = {
  \once \hideNotes
  \once \override NoteHead.no-ledgers = ##t
  \gsBare
}

%% Three lines for low, middle and high; no clef, since there are no pitches.
gsThreeLines = \with {
  \override StaffSymbol.line-positions = #'(-4 0 4)
  \override BarLine.bar-extent = #'(-2 . 2)
  \override Stem.direction = #UP
  \clef "percussion"
}

%% Quarter tones by arrows (SMuFL E270 to E275), in place of LilyPond's Stein-Zimmermann forms.
gsArrows = \with {
  alterationGlyphs =
  #'((-1 . "accidentals.flatflat")
     (-3/4 . "accidentals.flat.arrowdown")
     (-1/2 . "accidentals.flat")
     (-1/4 . "accidentals.natural.arrowdown")
     (0 . "accidentals.natural")
     (1/4 . "accidentals.natural.arrowup")
     (1/2 . "accidentals.sharp")
     (3/4 . "accidentals.sharp.arrowup")
     (1 . "accidentals.doublesharp"))
}
