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
  \once \override Stem.details.gs-stemless = ##t
}

%% Where a line stops: a small head that is not attacked, in brackets together with its accidental.
#(define (gs:bracket-stencil grob)
   (let* ((heads (gs:list grob 'note-heads))
          (unit (gs:staff-space grob))
          (parent (ly:grob-parent grob X))
          (x (gs:reach (append heads (gs:accidentals heads)) parent)))
     (if (not x) '()
         (let* ((y (* 0.5 unit (gs:position (first heads))))
                (left (- (car x) (* 0.4 unit))) (right (+ (cdr x) (* 0.4 unit)))
                (hook (* 0.28 unit))
                (signs (filter gs:printed? (gs:accidentals heads)))
                (tall (* unit (if (null? signs) 0.75 0.95)))
                ;; The stem of a flat stands far above its note.
                (top (apply max 0 (map (lambda (g) (cdr (ly:grob-extent g g Y))) signs)))
                (low (- y tall)) (high (+ y (if (> top (* 1.25 unit)) top tall)))
                (side (lambda (x inwards)
                        (list 'moveto (+ x inwards) high 'lineto x high
                              'lineto x low 'lineto (+ x inwards) low))))
           (ly:stencil-add
            (make-path-stencil (side left hook) (* 0.12 unit) 1 1 #f)
            (make-path-stencil (side right (- hook)) (* 0.12 unit) 1 1 #f))))))
gsStops = {
  \gsStemless
  \once \override NoteHead.details.gs-stops = ##t
  \once \override NoteHead.font-size = #-2
  \once \override Accidental.font-size = #-2
  \once \override AccidentalCautionary.font-size = #-2
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

%% No accidental, whatever the pitch and its transposition, and none owed to the notes after it.
gsBare = {
  \once \override NoteHead.details.gs-bare = ##t
  \once \set Staff.harmonicAccidentals = ##f
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
