\version "2.24.0"
%% Charts: staves of even columns with lines of text below, and the map of techniques.

%% The text of a column; "Bb " and the like are set with the signs of the music font.
#(define-markup-command (gs-cell layout props text) (string?)
   (interpret-markup layout props (make-concat-markup (gs:with-signs text))))

%% The name of a tube, at the left of its staff.
#(define-markup-command (gs-tube layout props text) (string?)
   (interpret-markup layout props (markup #:bold #:fontsize -1 #:gs-cell text)))

gsBlack = \once \override NoteHead.duration-log = #2
gsShut = \once \override NoteHead.parenthesized = ##t
gsNoStaff = { \stopStaff }

gsChartStaff = \with {
  \omit TimeSignature
  \accidentalStyle forget
  extraNatural = ##f
}
gsChartText = \with {
  \override LyricText.font-size = #-2
  \override VerticalAxisGroup.nonstaff-relatedstaff-spacing = #'((basic-distance . 3.4) (padding . 0.8))
  \override VerticalAxisGroup.nonstaff-nonstaff-spacing = #'((basic-distance . 2) (minimum-distance . 2) (padding . 0.1))
}
gsChartSmall = \with {
  \gsChartText
  \override LyricText.font-size = #-3.5
}

%% A column is a whole note wide, the same on every staff: a single head is a quarter after its start, two are at its
%% start and a half after it, and the text below is centred under both.
gsChartRow = \layout {
  indent = 0
  short-indent = 0
  ragged-right = ##f
  ragged-last = ##f
  system-count = #1
  \context {
    \Score
    \omit BarNumber
    \omit BarLine
    \omit SystemStartBar
    proportionalNotationDuration = #(ly:make-moment 1/4)
    \override SpacingSpanner.uniform-stretching = ##t
    \override SpacingSpanner.strict-note-spacing = ##t
  }
  \context {
    \Voice
    \omit Stem
    \omit Dots
    \override NoteHead.duration-log = #0
    \override ParenthesesItem.font-size = #-1
  }
  \context {
    \Lyrics
    \override LyricText.self-alignment-X = #CENTER
    \override LyricText.parent-alignment-X = #CENTER
    \override LyricSpace.minimum-distance = #0.2
  }
}
gsChartLadder = \layout {
  \gsChartRow
  indent = 16\mm
  short-indent = 16\mm
  \context {
    \Score
    \override InstrumentName.self-alignment-X = #LEFT
    \override InstrumentName.extra-offset = #'(0.3 . 0)
  }
}

gsChartPaper = \paper {
  \gsPagePaper
  left-margin = 16\mm
  score-system-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 2) (stretchability . 20))
  score-markup-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 4) (stretchability . 0))
  markup-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
}

%% --- the map of techniques ---------------------------------------------------------------------------------------
%% Rows of equal height without gaps. Widths are in staff spaces; a letter stands for a semitone: f playable, c with
%% care, n not as written. Playable is black, with care hatched, everything else blank: legible in a photocopy.

#(define gs:map-height 1.85)
#(define gs:map-label 36)
#(define (gs:map-cell layout count)
   (/ (- (ly:output-def-lookup layout 'line-width) gs:map-label) count))

#(define (gs:map-hatched x0 x1 low high)
   (let* ((h (- high low))
          (lines (map (lambda (k)
                        (let* ((x (+ x0 (* 0.55 k))) (from (max x0 (- x h))) (to (min x1 x)))
                          (if (<= to from) empty-stencil
                              (make-line-stencil 0.07 from (+ low (- from (- x h))) to (+ low (- to (- x h)))))))
                      (iota (1+ (inexact->exact (ceiling (/ (+ (- x1 x0) h) 0.55))))))))
     (apply ly:stencil-add
            (make-path-stencil (list 'moveto x0 low 'lineto x1 low 'lineto x1 high 'lineto x0 high 'closepath)
                               0.08 1 1 #f)
            lines)))

#(define (gs:map-box code x0 x1 low high)
   (case code
     ((#\f) (ly:round-filled-box (cons x0 x1) (cons low high) 0))
     ((#\c) (gs:map-hatched x0 x1 low high))
     (else empty-stencil)))

%% Adjacent cells of one kind form one box.
#(define (gs:map-boxes cells width)
   (let ((count (string-length cells)))
     (let next ((start 0) (n 1) (made empty-stencil))
       (cond ((= start count) made)
             ((and (< n count) (char=? (string-ref cells n) (string-ref cells start))) (next start (1+ n) made))
             (else
              (next n (1+ n)
                    (ly:stencil-add made
                      (gs:map-box (string-ref cells start) (+ gs:map-label (* width start)) (+ gs:map-label (* width n))
                                  0.35 (- gs:map-height 0.35)))))))))

%% Thin lines at the ends of registers, and a hairline along each row to guide the eye.
#(define (gs:map-grid borders width count)
   (apply ly:stencil-add
          (make-line-stencil 0.03 gs:map-label (/ gs:map-height 2) (+ gs:map-label (* width count)) (/ gs:map-height 2))
          (map (lambda (n)
                 (make-line-stencil 0.06 (+ gs:map-label (* width n)) 0 (+ gs:map-label (* width n)) gs:map-height))
               borders)))

#(define (gs:map-row stencil layout height)
   (ly:make-stencil (ly:stencil-expr stencil) (cons 0 (ly:output-def-lookup layout 'line-width)) (cons 0 height)))

#(define (gs:map-text layout props size text)
   (interpret-markup layout (cons `((font-size . ,size)) props) (make-concat-markup (gs:with-signs text))))

%% A label, on two lines if it would be much wider than `room`.
#(define (gs:map-labelled layout props text room)
   (let ((long (gs:map-text layout props -2 text)))
     (if (< (* 0.75 (interval-length (ly:stencil-extent long X))) room)
         (ly:stencil-translate-axis (gs:map-fitted long room) (- (/ gs:map-height 2) 0.4) Y)
         (let ((set (interpret-markup layout
                      (cons `((font-size . -5) (line-width . ,room) (baseline-skip . 0.9)) props)
                      (make-wordwrap-markup
                       (map (lambda (word) (make-concat-markup (gs:with-signs word))) (string-split text #\space))))))
           (ly:stencil-translate-axis (gs:map-fitted set room) (+ (/ gs:map-height 2) 0.4) Y)))))

%% A text, made smaller if it would be wider than `room`.
#(define (gs:map-fitted text room)
   (let ((long (interval-length (ly:stencil-extent text X))))
     (if (> long room) (ly:stencil-scale text (/ room long) (/ room long)) text)))

%% A row, under the heading of its group if it is the first: they stay on one page.
#(define-markup-command (gs-map-row layout props heading label cells borders) (string? string? string? list?)
   (let* ((count (string-length cells))
          (width (gs:map-cell layout count))
          (row (gs:map-row
                (ly:stencil-add (gs:map-labelled layout props label (- gs:map-label 1))
                                (gs:map-grid borders width count)
                                (gs:map-boxes cells width))
                layout gs:map-height)))
     (if (string-null? heading) row
         (stack-stencils Y DOWN 0 (list (gs:map-group layout props heading width borders) row)))))

#(define (gs:map-group layout props heading width borders)
   (let ((high (* 1.15 gs:map-height)))
     (gs:map-row
      (apply ly:stencil-add
             (gs:map-labelled layout (cons '((font-series . bold)) props) heading (- gs:map-label 1))
             (map (lambda (n)
                    (make-line-stencil 0.06 (+ gs:map-label (* width n)) 0 (+ gs:map-label (* width n)) high))
                  borders))
      layout high)))

%% The head: registers over their columns, each (first last . text), and note names, each (column . text).
#(define-markup-command (gs-map-head layout props registers names count) (list? list? integer?)
   (let* ((width (gs:map-cell layout count))
          (put (lambda (text column y)
                 (ly:stencil-translate (ly:stencil-aligned-to text X CENTER)
                                       (cons (+ gs:map-label (* width column)) y)))))
     (gs:map-row
      (ly:stencil-add
       (apply ly:stencil-add empty-stencil
              (map (lambda (r)
                     (put (gs:map-fitted (gs:map-text layout props -2 (cddr r)) (* width (- (cadr r) (car r) 0.4)))
                          (/ (+ (car r) (cadr r)) 2) 3.1))
                   registers))
       (apply ly:stencil-add empty-stencil
              (map (lambda (n) (put (gs:map-text layout props -3 (cdr n)) (car n) 0.6)) names)))
      layout 5)))

%% The legend of the boxes.
#(define-markup-command (gs-map-key layout props playable care not) (string? string? string?)
   (let ((sample (lambda (code)
                   (ly:stencil-add
                    (make-line-stencil 0.03 0 0.7 5 0.7)
                    (gs:map-box code 0 5 0 1.4))))
         (word (lambda (text) (gs:map-text layout props -1.5 text))))
     (gs:even-height 2.6 3
       (stack-stencils X RIGHT 0.9
         (list (sample #\f) (word playable) (ly:make-stencil "" '(0 . 2) '(0 . 0))
               (sample #\c) (word care) (ly:make-stencil "" '(0 . 2) '(0 . 0))
               (sample #\n) (word not))))))

%% A chart as a picture, without head and foot.
gsChartPicture = \paper {
  \gsChartPaper
  paper-height = 2000\mm
  oddHeaderMarkup = ##f
  evenHeaderMarkup = ##f
  oddFooterMarkup = ##f
  evenFooterMarkup = ##f
  bookTitleMarkup = ##f
}
#(define-markup-command (gs-chart-title layout props text) (string?)
   (interpret-markup layout props (markup #:column (#:fontsize 4 #:bold text #:vspace 0.3))))
