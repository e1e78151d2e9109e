%% Signs at a note: edges, bends, scripts, words, rows, marks. All are post-events.

#(define (gs:staff-space grob)
   (let ((staff (ly:grob-object grob 'staff-symbol)))
     (if (ly:grob? staff) (ly:staff-symbol-staff-space staff) 1)))

%% --- edges into a note: an arpeggio grob, so that accidentals, chords and spacing are LilyPond's affair ----------

#(define (gs:into draw width)
   (lambda (grob)
     (let* ((heads (append-map (lambda (s) (gs:list s 'note-heads)) (gs:list grob 'stems)))
            (unit (gs:staff-space grob))
            (position (if (null? heads) 0
                          (apply min (map (lambda (h) (ly:grob-property h 'staff-position 0)) heads))))
            (y (* 0.5 unit position)) (w (* unit width)))
       (ly:stencil-translate (make-path-stencil (draw w unit) (* 0.16 unit) 1 1 #f) (cons (- w) y)))))

#(define (gs:curve-into rise)       ; from `rise` staff spaces away, level where it meets the note
   (lambda (w unit)
     (let ((d (* rise unit)))
       (list 'moveto 0 d 'curveto (* 0.1 w) (* 0.45 d) (* 0.4 w) 0 w 0))))
#(define (gs:straight-into rise)
   (lambda (w unit) (list 'moveto 0 (* rise unit) 'lineto w 0)))

#(define (gs:edge-event draw width)
   #{ \tweak stencil #(gs:into draw width)
      \tweak X-extent #(cons (- (+ width 0.1)) 0.2)
      \tweak Y-extent #'(-1 . 1)
      \tweak padding #0.35
      \tweak extra-spacing-width #'(-0.6 . 0)
      \arpeggio #})

%% From below (SMuFL brassScoop), from above (brassPlop); a rip is a longer, straight line up into the note.
gsScoop = #(gs:edge-event (gs:curve-into -1.6) 1.3)
gsPlop = #(gs:edge-event (gs:curve-into 1.9) 1.3)
gsRip = #(gs:edge-event (gs:straight-into -2.6) 1.9)

%% A path that `draw` gives for (left right height unit): from the head, clear of its dots, at most `width` staff
%% spaces wide and never up to what comes next.
#(define (gs:after-head grob width draw)
   (let* ((system (ly:grob-system grob))
          (unit (gs:staff-space grob))
          (left (ly:spanner-bound grob LEFT))
          (column (if (grob::has-interface left 'note-head-interface) (ly:grob-parent left X) left))
          (heads (if (grob::has-interface column 'note-column-interface) (gs:list column 'note-heads) (list left)))
          (dots (filter gs:printed? (map (lambda (h) (ly:grob-object h 'dot)) heads)))
          (ends (map (lambda (g) (cdr (ly:grob-robust-relative-extent g system X))) (append heads dots)))
          (x0 (+ (apply max ends) (* 0.3 unit)))
          (nexts (filter (lambda (x) (> x x0))
                         (map (lambda (c) (car (ly:grob-extent c system X)))
                              (filter (lambda (c) (not (interval-empty? (ly:grob-extent c system X))))
                                      (gs:list system 'columns)))))
          (x1 (max (+ x0 (* 1.2 unit))
                   (apply min (+ x0 (* width unit)) (map (lambda (x) (- x (* 0.3 unit))) nexts)))))
     (ly:stencil-translate-axis
      (make-path-stencil (draw x0 x1 (gs:y grob (car heads)) unit) (* 0.15 unit) 1 1 #f)
      (- (ly:grob-relative-coordinate grob system X)) X)))

%% --- edges off a note (SMuFL brassDoit..., brassFall...) ------------------------------------------------------

#(define (gs:off-stencil rise width)
   (lambda (grob)
     (gs:after-head grob width
       (lambda (x0 x1 y unit)
         (let ((w (- x1 x0)) (d (* rise unit)))
           (list 'moveto x0 y 'curveto (+ x0 (* 0.5 w)) y (+ x0 (* 0.85 w)) (+ y (* 0.4 d)) x1 (+ y d)))))))
#(define (gs:off-event rise)
   #{ \tweak stencil #(gs:off-stencil rise 2.2)
      \tweak minimum-length #4.2
      \tweak springs-and-rods #ly:spanner::set-spacing-rods
      \bendAfter #rise #})
gsDoit = #(gs:off-event 2.2)
gsFall = #(gs:off-event -2.4)

%% --- bend: a small V (an arc would read as a tie), its depth in half staff spaces --------------------------------

#(define (gs:bend-stencil depth)
   (lambda (grob)
     (gs:after-head grob 3.2
       (lambda (x0 x1 y unit)
         (list 'moveto x0 y 'lineto (/ (+ x0 x1) 2) (+ y (* 0.5 unit depth)) 'lineto x1 y)))))
gsBend =
#(define-event-function (depth) (number?)
   #{ \tweak stencil #(gs:bend-stencil depth)
      \tweak minimum-length #4.4
      \tweak springs-and-rods #ly:spanner::set-spacing-rods
      \bendAfter #depth #})

%% --- scripts -----------------------------------------------------------------------------------------------------

gsPlus = \stopped
gsHalfStopped = \halfopen
gsOpen = \open
gsTrill = \trill

%% Double and triple tonguing: dots over the note, as many as the tongue strokes of the figure.
#(define (gs:dots count)
   (lambda (grob)
     (let ((dot (ly:font-get-glyph (ly:grob-default-font grob) "scripts.staccato")))
       (apply ly:stencil-add
              (map (lambda (i) (ly:stencil-translate-axis dot (* 0.62 (- i (/ (1- count) 2))) X)) (iota count))))))
gsDots =
#(define-event-function (count) (integer?)
   #{ \tweak stencil #(gs:dots count) \staccato #})

%% Flutter: three slashes whatever the note value.
gsFlutter = #(make-music 'TremoloEvent 'tremolo-type 4096 'tweaks '((flag-count . 3) (shape . beam-like)))

%% Attacks that speed up or slow down: one beam that opens or closes.
gsFeather =
#(define-music-function (direction music) (ly:dir? ly:music?)
   #{ \override Beam.grow-direction = #direction
      #music
      \revert Beam.grow-direction #})

%% --- words above -------------------------------------------------------------------------------------------------

#(define-markup-command (gs-word layout props text) (string?)
   (interpret-markup layout props (markup #:fontsize -0.5 #:italic text)))
gsWord =
#(define-event-function (text) (string?)
   #{ -\tweak outside-staff-priority #450 -\tweak padding #0.5 ^\markup \gs-word #text #})

%% --- rows: cents above, fingerings below ---------------------------------------------------------------------------

#(define (gs:cents-text cents)
   (string-append (cond ((> cents 0) "+") ((< cents 0) "−") (else "±")) (number->string (abs cents)) " ¢"))
#(define-markup-command (gs-cents layout props name cents) (string? integer?)
   (interpret-markup layout props
     (markup #:fontsize -3.5 #:sans
       (if (string-null? name) (gs:cents-text cents) (string-append name " " (gs:cents-text cents))))))
gsTuned =
#(define-event-function (name cents) (string? integer?)
   #{ -\tweak self-alignment-X #CENTER -\tweak parent-alignment-X #CENTER -\tweak staff-padding #2.2
      -\tweak outside-staff-priority #350 ^\markup \gs-cents #name #cents #})
gsCents =
#(define-event-function (cents) (integer?) (gsTuned "" cents))

%% "Bb 1-2" prints a flat sign wherever a side is named; all are equally high, so that the row is one line.
#(define (gs:fingering-parts text)
   (let ((at (string-contains text "Bb ")))
     (if at
         (append (list (substring text 0 at) (markup #:concat ("B" #:hspace 0.1 #:fontsize -2 #:raise 0.45 #:flat #:hspace 0.35)))
                 (gs:fingering-parts (substring text (+ at 3))))
         (list text))))
#(define-markup-command (gs-fingering layout props text) (string?)
   (let ((row (interpret-markup layout props
                (markup #:fontsize -3 #:sans (make-concat-markup (gs:fingering-parts text))))))
     (ly:make-stencil (ly:stencil-expr row) (ly:stencil-extent row X) '(-0.9 . 1.3))))
gsFingering =
#(define-event-function (text) (string?)
   #{ -\tweak self-alignment-X #CENTER -\tweak parent-alignment-X #CENTER -\tweak staff-padding #2.4
      -\tweak outside-staff-priority #200 -\tweak extra-spacing-width #'(-0.3 . 0.3) _\markup \gs-fingering #text #})

%% --- footnote marks: a text above everything else, so that its place is kept ----------------------------------------

gsMark =
#(define-event-function (text) (string?)
   #{ -\tweak outside-staff-priority #1100 -\tweak padding #0.5 -\tweak self-alignment-X #CENTER
      -\tweak parent-alignment-X #CENTER ^\markup \fontsize #-2.5 \bold #text #})

%% --- dynamics LilyPond has no command for ------------------------------------------------------------------------

gsLevel =
#(define-event-function (text) (string?) (make-music 'AbsoluteDynamicEvent 'text text))
%% Before the note a hairpin starts at: it comes from nothing, or goes to nothing.
gsNiente = \once \override Hairpin.circled-tip = ##t

%% Before the place that carries the level at the very end of a gesture: it keeps clear of the level that the next
%% one begins with ("p" and "pp" would read as "ppp").
gsEndLevel = {
  \once \override DynamicText.extra-spacing-width = #'(-0.3 . 1.8)
  \once \override DynamicText.extra-spacing-height = #'(-inf.0 . +inf.0)
}
