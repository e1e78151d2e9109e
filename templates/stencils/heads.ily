%% Noteheads and heights. Each command precedes a note or chord and only affects that; they may be combined. Their
%% settings are stored in the note itself, as with \tweak, so cues have them too.

%% Music with these tweaks on its notes, except the grace notes after them.
#(define (gs:tweaked tweaks music)
   (let mark ((m music))
     (case (ly:music-property m 'name)
       ((NoteEvent) (set! (ly:music-property m 'tweaks) (append tweaks (ly:music-property m 'tweaks '()))))
       ((GraceMusic) #f)
       (else
        (for-each mark (ly:music-property m 'elements '()))
        (if (ly:music? (ly:music-property m 'element #f)) (mark (ly:music-property m 'element))))))
   music)
#(define (gs:look . tweaks) (define-music-function (note) (ly:music?) (gs:tweaked tweaks note)))

%% About this pitch: an x (SMuFL noteheadXBlack, noteheadXHalf, noteheadXWhole).
gsX = #(gs:look '((NoteHead . style) . cross))
%% A hollow diamond is white inside: a ledger line through it would look like a slash or a filling.
#(define (gs:diamond grob)
   (let ((glyph (ly:note-head::print grob)))
     (if (>= (ly:grob-property grob 'duration-log 2) 2) glyph
         (let* ((x (ly:stencil-extent glyph X)) (y (ly:stencil-extent glyph Y))
                (middle (interval-center x)) (half (interval-center y)))
           (ly:stencil-add
            (stencil-with-color
             (make-path-stencil (list 'moveto (car x) half 'lineto middle (cdr y) 'lineto (cdr x) half
                                      'lineto middle (car y) 'closepath)
                                0 1 1 #t)
             white)
            glyph)))))
gsDiamond = #(gs:look '((NoteHead . style) . harmonic-mixed) `((NoteHead . stencil) . ,gs:diamond))
gsSlash = #(gs:look '((NoteHead . style) . slash))

%% As high or as low as possible: a triangle pointing up or down, filled or hollow according to the note value. The
%% font has the one that points up; the other is drawn, for upward stems, as at the bottom of a staff.
#(define (gs:triangle-down grob)
   (let* ((unit (ly:staff-symbol-staff-space (ly:grob-object grob 'staff-symbol)))
          (open (< (ly:grob-property grob 'duration-log 2) 2))
          (w (* 0.62 unit)) (h (* 0.52 unit)))
     (make-path-stencil (list 'moveto 0 h 'lineto (* 2 w) h 'lineto w (- h) 'closepath)
                        (* (if open 0.16 0.1) unit) 1 1 (not open))))
gsTriangleUp = #(gs:look '((NoteHead . style) . do))
gsTriangleDown = #(gs:look `((NoteHead . stencil) . ,gs:triangle-down))

%% A point on a line: a black head without stem or value, at its time.
#(define gs:stemless
   '(((NoteHead . duration-log) . 2)
     ((Stem . stencil) . #f)
     ((Flag . stencil) . #f)
     ((Dots . stencil) . #f)
     ((Stem . length) . 0)
     ((Stem details gs-stemless) . #t)))
gsStemless = #(apply gs:look gs:stemless)

%% Where a line stops: a small head that is not attacked, in brackets with its accidental.
#(define (gs:bracket-stencil grob)
   (let* ((heads (gs:list grob 'note-heads))
          (unit (gs:staff-space grob))
          (parent (ly:grob-parent grob X))
          (x (gs:reach (append heads (gs:accidentals heads)) parent)))
     (if (not x) '()
         (let* ((y (* 0.5 unit (gs:position (car heads))))
                (signs (filter gs:printed? (gs:accidentals heads)))
                ;; Beyond the ends of ledger lines, so that the hooks do not form a box with one.
                (beyond (if (> (abs (gs:position (car heads))) 5) (* 0.4 unit) 0))
                (left (- (car x) (* 0.4 unit) (if (null? signs) beyond 0))) (right (+ (cdr x) (* 0.4 unit) beyond))
                (hook (* 0.28 unit))
                (tall (* unit (if (null? signs) 0.75 0.95)))
                ;; The stem of a flat extends far above its note.
                (top (apply max 0 (map (lambda (g) (cdr (ly:grob-extent g g Y))) signs)))
                (low (- y tall)) (high (+ y (if (> top (* 1.25 unit)) top tall)))
                (side (if (gs:get (gs:details grob) 'round #f)
                          (lambda (x inwards)
                            (list 'moveto (+ x inwards) high 'curveto (- x inwards) (- high (* 0.5 unit))
                                  (- x inwards) (+ low (* 0.5 unit)) (+ x inwards) low))
                          (lambda (x inwards)
                            (list 'moveto (+ x inwards) high 'lineto x high
                                  'lineto x low 'lineto (+ x inwards) low)))))
           (ly:stencil-add
            (make-path-stencil (side left hook) (* 0.12 unit) 1 1 #f)
            (make-path-stencil (side right (- hook)) (* 0.12 unit) 1 1 #f))))))
#(define (gs:sized size)
   (map (lambda (grob) `((,grob . font-size) . ,size)) '(NoteHead Accidental AccidentalCautionary)))
gsStops = #(apply gs:look '((NoteHead details gs-stops) . #t) (append gs:stemless (gs:sized -2)))
%% A ghost note: head and accidental in parentheses (SMuFL noteheadParenthesis).
gsGhost = #(gs:look '((NoteHead details gs-ghost) . #t))
gsSmall = #(apply gs:look (gs:sized -3))

%% \gsAfterStop (before a clef): the clef is printed after the head where a line stopped, not below it, where it would seem
%% to belong to that head.
gsAfterStop = { \once \override Score.NonMusicalPaperColumn.allow-loose-spacing = ##f }

%% A height without pitch: a place on the staff in half staff spaces. No accidental, no ledger lines; it does not
%% move when the music is transposed.
#(define gs:unpitched '(((NoteHead . no-ledgers) . #t) ((NoteHead details gs-bare) . #t)))
gsHeight =
#(define-music-function (position note) (number? ly:music?)
   (gs:tweaked `(((NoteHead details gs-height) . ,position) ,@gs:unpitched) note))

%% No accidental, whatever the pitch and its transposition, and no effect on later accidentals.
gsBare = #(gs:look '((NoteHead details gs-bare) . #t))

%% Time passes, nothing is printed.
gsHidden =
#(apply gs:look
  (append (map (lambda (grob) `((,grob . transparent) . #t)) '(NoteHead Stem Flag Dots Accidental)) gs:unpitched))

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

%% \gsEighth #1/8 c'': the note an eighth tone (in whole tones) higher, with an arrow on its accidental (SMuFL
%% E270 to E275).
#(define gs:eighth-glyphs
   '((-5/8 . "accidentals.flat.arrowdown")
     (-3/8 . "accidentals.flat.arrowup")
     (-1/8 . "accidentals.natural.arrowdown")
     (1/8 . "accidentals.natural.arrowup")
     (3/8 . "accidentals.sharp.arrowdown")
     (5/8 . "accidentals.sharp.arrowup")))
gsEighth =
#(define-music-function (by note) (rational? ly:music?)
   (for-each
    (lambda (one)
      (let ((pitch (ly:music-property one 'pitch)))
        (ly:music-set-property! one 'pitch
          (ly:make-pitch (ly:pitch-octave pitch) (ly:pitch-notename pitch) (+ by (ly:pitch-alteration pitch))))
        (for-each
         (lambda (grob)
           (ly:music-set-property! one 'tweaks
             (acons (cons grob 'alteration-glyph-name-alist) gs:eighth-glyphs (ly:music-property one 'tweaks '()))))
         '(Accidental AccidentalCautionary))))
    (take (extract-named-music note 'NoteEvent) 1))  ; of a chord the lower note
   note)

%% The played one of two lines, above or below the sung one; \gsAlone after it restores the voice's directions.
#(define (gs:directions change)
   (context-spec-music (make-sequential-music (map change '(Dots Rest Script Slur Stem Tie TupletBracket))) 'Bottom))
#(define (gs:with-bracket music change)
   (make-sequential-music (list music (context-spec-music (change 'TupletBracket 'outside-staff-priority) 'Bottom))))
%% Slur and bracket are then on one side: the bracket keeps out of the slur.
#(define (gs:beside direction)
   (gs:with-bracket
    (gs:directions (lambda (grob) (make-grob-property-override grob 'direction direction)))
    (lambda (grob name) (make-grob-property-override grob name 40))))
gsUpper = #(gs:beside UP)
gsLower = #(gs:beside DOWN)
gsAlone =
#(gs:with-bracket (gs:directions (lambda (grob) (make-grob-property-revert grob 'direction)))
                  make-grob-property-revert)
