%% Spanners above the staff: dashes with words, changes from one state to another, lengths. Each is in a row that keeps
%% a chain of successive ones at the same height.

%% The place of an end of a piece, from the left of the system: (left . right) of the heads there, or the edge of the
%% line. Spans that last to the end of a leaf stop short of what comes next.
#(define (gs:end-extent grob system side)
   (let* ((bound (ly:spanner-bound grob side))
          (heads (gs:list bound 'note-heads))
          (extent (gs:printed-reach bound system))
          (outer? (if (= side LEFT) (gs:first-piece? grob) (gs:last-piece? grob)))
          (at (ly:grob-relative-coordinate bound system X)))
     (cond ((not outer?) (if (= side LEFT) (cons (+ (cdr extent) 0.4) (+ (cdr extent) 0.4))
                             (cons (- (car extent) 0.2) (- (car extent) 0.2))))
           ((pair? heads) (gs:reach heads system))
           ((and (= side RIGHT) (gs:get (gs:details grob) 'to-end #f)) (cons (- (car extent) 1.2) (- (car extent) 1.2)))
           ((and (= side RIGHT) (not (eq? 'at (gs:get (gs:details grob) 'to 'until))))
            (cons (- (car extent) 0.5) (- (car extent) 0.5)))
           (else (cons at (+ at 1.2))))))

#(define (gs:hand-glyph grob name)
   (ly:stencil-aligned-to
    (ly:stencil-aligned-to
     (grob-interpret-markup
      grob
      (make-musicglyph-markup
       (case name
         ((stopped) "scripts.stopped")
         ((half-stopped) "scripts.halfopen")
         (else "scripts.open"))))
     X CENTER)
    Y CENTER))

%% Words are aligned with the line: it is level with the middle of a small letter.
#(define (gs:small-word grob text)
   (let ((word (grob-interpret-markup grob (markup #:fontsize -1 #:italic text))))
     (if (ly:stencil-empty? word) word (ly:stencil-translate-axis word -0.45 Y))))

#(define (gs:stencil-width stencil)
   (if (ly:stencil-empty? stencil) 0 (interval-length (ly:stencil-extent stencil X))))
#(define (gs:put stencil x) (ly:stencil-translate-axis (ly:stencil-aligned-to stencil X LEFT) x X))

#(define gs:thin 0.13)
#(define (gs:dashes x0 x1)
   (if (< (- x1 x0) 1.2) (if (< (- x1 x0) 0.3) empty-stencil (make-line-stencil gs:thin x0 0 x1 0))
       (make-path-stencil
        (gs:dash-commands (gs:path (list (cons x0 0) (cons x1 0)) #t) 0 (- x1 x0) 0.55 0.55) gs:thin 1 1 #f)))
#(define (gs:dashed-arrow x0 x1)
   (ly:stencil-add (gs:dashes x0 (- x1 0.75))
                   (gs:arrow-head (gs:path (list (cons (- x1 1.0) 0) (cons x1 0)) #t) 1.0 0.85)))

%% word - - - hook; after a line break the word is repeated in parentheses.
#(define (gs:draw-span grob details left right)
   (let* ((text (gs:get details 'left ""))
          (word (gs:small-word grob (if (gs:first-piece? grob) text (string-append "(" text ")"))))
          (from (+ (car left) (gs:stencil-width word) 0.5)) (end (max (cdr right) (+ from 0.9))))
     (ly:stencil-add (gs:put word (car left)) (gs:dashes from end)
                     (if (gs:last-piece? grob) (make-line-stencil gs:thin end 0 end -0.8) empty-stencil))))

%% state - - -> state. A state already printed, at the end of the previous change, is not repeated; the dashes begin
%% after it.
#(define (gs:change-start grob)
   (let ((details (gs:details grob)))
     (or (gs:get (ly:grob-property grob 'details '()) 'joined #f) (gs:get details 'left ""))))
#(define (gs:draw-change grob details left right)
   (let* ((hand? (eq? 'hand (gs:get details 'kind 'turn)))
          (draw (lambda (what) (if hand? (gs:hand-glyph grob what) (gs:small-word grob what))))
          (start (draw (gs:change-start grob))) (goal (draw (gs:get details 'right "")))
          (first? (gs:first-piece? grob)) (last? (gs:last-piece? grob))
          (place (lambda (stencil extent)
                   (if hand? (ly:stencil-translate-axis stencil (interval-center extent) X)
                       (gs:put stencil (car extent)))))
          (start (if first? (place start left) empty-stencil))
          (goal (place goal right))
          (from (cond ((not first?) (car left))
                      ((ly:stencil-empty? start) (car left))
                      (else (+ 0.5 (cdr (ly:stencil-extent start X))))))
          (until (if (and last? (not (ly:stencil-empty? goal))) (- (car (ly:stencil-extent goal X)) (if hand? 0.45 0.6)) (cdr right)))
          (shift (max 0 (- (+ from 1.5) until)))
          (goal (ly:stencil-translate-axis goal (if hand? 0 shift) X)))
     (ly:stencil-add (if (gs:get (ly:grob-property grob 'details '()) 'joined #f) empty-stencil start)
                     (if last? (gs:dashed-arrow from (+ until (if hand? 0 shift))) (gs:dashes from until))
                     (if last? goal empty-stencil))))

%% |-- 2.5 s --|: after a line break the length is repeated in parentheses.
#(define (gs:draw-length grob details left right)
   (let* ((length (gs:get details 'left ""))
          (text (if (gs:first-piece? grob) length (string-append "(" length ")")))
          (word (grob-interpret-markup grob (markup #:fontsize -1 text)))
          (x0 (car left)) (x1 (max (cdr right) (+ x0 1.5)))
          (gap (+ 0.8 (gs:stencil-width word)))
          (above? (> (+ gap 1.0) (- x1 x0)))
          (half (if above? 0 (/ gap 2)))
          (middle (/ (+ x0 x1) 2))
          (word (ly:stencil-translate (ly:stencil-aligned-to (ly:stencil-aligned-to word X CENTER) Y (if above? DOWN CENTER))
                                      (cons middle (if above? 0.4 0))))
          (tick (lambda (x) (make-line-stencil gs:thin x 0 x -0.7))))
     (ly:stencil-add
      word
      (make-line-stencil gs:thin x0 0 (- middle half) 0)
      (make-line-stencil gs:thin (+ middle half) 0 x1 0)
      (if (gs:first-piece? grob) (tick x0) empty-stencil)
      (if (gs:last-piece? grob) (tick x1) empty-stencil))))

%% tr ~~~~: over tied notes the sign continues in waves to the end of the last one (Gould; from memory). They are thin,
%% and lighter and flatter than the contour: the glyph of the font is a heavy zigzag.
#(define (gs:glyph grob name) (grob-interpret-markup grob (make-musicglyph-markup name)))
#(define gs:trill-drop -1)  % the waves run through the middle of the letters
#(define (gs:trill-sign grob)
   (let* ((sign (gs:with-second grob (ly:stencil-translate-axis (gs:glyph grob "scripts.trill") gs:trill-drop Y))))
     (if (gs:first-piece? grob) sign
         (let ((bracket (lambda (text) (grob-interpret-markup grob (markup #:fontsize 1 text)))))
           (ly:stencil-combine-at-edge
            (ly:stencil-combine-at-edge (ly:stencil-translate-axis (bracket "(") -0.6 Y) X RIGHT sign 0.1)
            X RIGHT (ly:stencil-translate-axis (bracket ")") -0.6 Y) 0.1)))))
#(define (gs:draw-trill grob details left right)
   (let* ((sign (gs:trill-sign grob))
          (letters (gs:stencil-width (gs:glyph grob "scripts.trill")))
          (sign (if (gs:first-piece? grob)
                    (ly:stencil-translate-axis (ly:stencil-aligned-to sign X LEFT) (- (interval-center left) (/ letters 2)) X)
                    (gs:put sign (car left))))
          (from (+ 0.6 (cdr (ly:stencil-extent sign X))))
          (length (- (cdr right) from)))
     (if (< length 0.9) sign
         (ly:stencil-add
          sign
          (make-path-stencil
           (gs:wave-commands (gs:path (list (cons from 0) (cons (+ from length) 0)) #t) 0 length (lambda (s) 0.24) 1.0)
           gs:trill-weight 1 1 #f)))))
#(define gs:trill-weight 0.13)

#(define (gs:above-stencil grob)
   (let* ((details (gs:details grob))
          (system (ly:grob-system grob))
          (left (gs:end-extent grob system LEFT))
          (right (gs:end-extent grob system RIGHT))
          (draw (case (gs:get details 'kind 'span)
                  ((span) gs:draw-span) ((length) gs:draw-length) ((trill) gs:draw-trill) (else gs:draw-change))))
     (ly:stencil-translate-axis (draw grob details left right) (- (ly:grob-relative-coordinate grob system X)) X)))

#(define gs:above-height
   (ly:make-unpure-pure-container
    ly:grob::stencil-height
    (lambda (grob start end) (if (eq? 'trill (gs:get (gs:details grob) 'kind 'span)) '(-1.0 . 1.4) '(-0.8 . 1.0)))))

%% A hand change needs room for its two glyphs and an arrow between them; words, for the first of them.
#(define (gs:above-room grob)
   (let* ((details (gs:details grob)) (kind (gs:get details 'kind 'span)))
     (case kind
       ((hand) 4.6)
       ((turn) (+ 3.2 (gs:stencil-width (gs:small-word grob (gs:change-start grob)))))
       ((span) (+ 2.2 (gs:stencil-width (gs:small-word grob (gs:get details 'left "")))))
       (else 3))))

%% \gsSpan "growl" ... \gsSpanEnd: a word, a dashed line and a hook at its end, for a tone colour that lasts.
gsSpan =
#(define-event-function (text) (string?)
   (gs:start 'span `((kind . span) (left . ,text))))
gsSpanEnd = #(gs:stop 'span)

%% \gsTrillSpan ... \gsTrillSpanEnd: the sign and its waves, over tied notes; \gsTrillSpanTo d'' adds the
%% accidental of the note above.
gsTrillSpan = #(gs:start 'trill '((kind . trill)))
gsTrillSpanTo =
#(define-event-function (pitch) (ly:pitch?)
   (let ((event (gs:start 'trill '((kind . trill)))))
     (set! (ly:music-property event 'gs-high) pitch)
     event))
gsTrillSpanEnd = #(gs:stop 'trill)

%% \gsTurn "air" "ord." ... \gsTurnEnd: a gradual change of state along a dashed arrow, never a wave.
gsTurn =
#(define-event-function (from to) (string? string?)
   (gs:start 'turn `((kind . turn) (left . ,from) (right . ,to) (to . at))))
gsTurnEnd = #(gs:stop 'turn)

%% \gsHandTurn #'(stopped open) ... \gsHandTurnEnd: + and o joined by a dashed arrow (Read, Stone): the hand closes or
%% opens gradually. States: stopped, half-stopped, open.
gsHandTurn =
#(define-event-function (states) (list?)
   (gs:start 'hand `((kind . hand) (left . ,(car states)) (right . ,(cadr states)) (to . at))))
gsHandTurnEnd = #(gs:stop 'hand)

%% \gsLength "2.5 s" ... \gsLengthEnd: how long it lasts, in a bracket above everything.
gsLength =
#(define-event-function (text) (string?)
   (gs:start 'length `((kind . length) (left . ,text))))
gsLengthEnd = #(gs:stop 'length)
