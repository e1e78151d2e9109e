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
     (if (gs:get details 'waves #f)
         (ly:stencil-add (gs:put word (car left)) (gs:draw-waves grob details from (- end from) 1.2 0.32))
         (ly:stencil-add (gs:put word (car left)) (gs:dashes from end)
                         (if (gs:last-piece? grob) (make-line-stencil gs:thin end 0 end -0.8) empty-stencil)))))

%% --- waves whose speed and width are drawn -----------------------------------------------------------------------

%% Where a piece begins and ends, as shares of the time of the whole.
#(define (gs:piece-shares grob)
   (let* ((whole (ly:grob-original grob))
          (broken (if (ly:grob? whole) (ly:spanner-broken-into whole) '()))
          (pieces (if (null? broken) (list grob) broken))
          (t0 (gs:when (ly:spanner-bound (car pieces) LEFT)))
          (t1 (gs:when (ly:spanner-bound (gs:last pieces) RIGHT)))
          (share (lambda (side) (/ (- (gs:when (ly:spanner-bound grob side)) t0) (max 1/1000 (- t1 t0))))))
     (cons (share LEFT) (share RIGHT))))

%% The value of rows ((share . value) ...) at a share: on the lines through them, constant beyond the ends.
#(define (gs:row-value rows share)
   (cond ((or (null? (cdr rows)) (<= share (caar rows))) (cdar rows))
         ((>= share (caadr rows)) (gs:row-value (cdr rows) share))
         (else (let ((a (car rows)) (b (cadr rows)))
                 (+ (cdr a) (* (- (cdr b) (cdr a)) (/ (- share (car a)) (- (car b) (car a)))))))))

%% The sums ((place . waves up to it) ...) along a stretch; `often`: waves for each staff space at a place.
#(define (gs:wave-sums length often)
   (let* ((n (max 8 (inexact->exact (ceiling (/ length 0.1))))) (step (/ length n)))
     (reverse (fold (lambda (i done)
                      (cons (cons (* step (1+ i)) (+ (cdar done) (* step (often (* step (+ i 0.5)))))) done))
                    '((0.0 . 0.0)) (iota n)))))

%% The places where so many equal parts of the waves begin, and the end.
#(define (gs:wave-places sums count)
   (let ((each (/ (cdr (gs:last sums)) count)))
     (map (lambda (k)
            (let loop ((rest sums))
              (if (or (null? (cddr rest)) (<= (* k each) (cdadr rest)))
                  (let ((a (car rest)) (b (cadr rest)))
                    (+ (car a) (* (- (car b) (car a))
                                  (min 1 (/ (- (* k each) (cdr a)) (max 1e-6 (- (cdr b) (cdr a))))))))
                  (loop (cdr rest)))))
          (iota (1+ count)))))

%% A wave from (0, 0) along the line, a whole number of half waves: closer and higher as asked. Four nodes a wave.
#(define (gs:changing-wave length often height)
   (let* ((sums (gs:wave-sums length often)) (waves (cdr (gs:last sums)))
          (halves (max 2 (inexact->exact (round (* 2 waves)))))
          (closer (/ halves (* 2 waves)))
          (nodes (map (lambda (k s)
                        (let ((phase (* k (/ PI 2))) (a (height s)))
                          (list s (* a (sin phase)) (* a (cos phase) 2 PI closer (often s)))))
                      (iota (1+ (* 2 halves))) (gs:wave-places sums (* 2 halves)))))
     (cons* 'moveto 0 0
       (append-map
        (lambda (a b)
          (let ((h (/ (- (car b) (car a)) 3)))
            (list 'curveto (+ (car a) h) (+ (cadr a) (* h (caddr a)))
                  (- (car b) h) (- (cadr b) (* h (caddr b))) (car b) (cadr b))))
        (drop-right nodes 1) (cdr nodes)))))

%% The waves of a piece from `from` on; of signs, + and o in turn where each half wave begins.
#(define (gs:draw-waves grob details from length wavelength height)
   (let* ((signs? (gs:get details 'signs #f)) (gap (if signs? 0.6 0)) (from (+ from gap)) (length (- length gap))
          (waves (gs:get details 'waves '())) (shares (gs:piece-shares grob))
          (share (lambda (s) (+ (car shares) (* (- (cdr shares) (car shares)) (/ s length)))))
          (value (lambda (name s) (gs:row-value (gs:get waves name '((0 . 1))) (share s)))))
     (if signs?
         (let* ((sums (gs:wave-sums length (lambda (s) (/ (min 1.6 (value 'speed s)) 4.4))))
                (count (max 1 (inexact->exact (round (* 2 (cdr (gs:last sums))))))))
           (apply ly:stencil-add
             (map (lambda (k s)
                    (ly:stencil-translate-axis (gs:hand-glyph grob (if (even? k) 'stopped 'open)) (+ from s) X))
                  (iota (1+ count)) (gs:wave-places sums count))))
         (ly:stencil-translate-axis
          (make-path-stencil
           (gs:changing-wave length (lambda (s) (/ (value 'speed s) wavelength)) (lambda (s) (* height (value 'width s))))
           gs:trill-weight 1 1 #f)
          from X))))

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
          (if (gs:get details 'waves #f)
              (gs:draw-waves grob details from length 1.0 0.24)
              (make-path-stencil
               (gs:wave-commands (gs:path (list (cons from 0) (cons (+ from length) 0)) #t) 0 length (lambda (s) 0.24) 1.0)
               gs:trill-weight 1 1 #f))))))
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
     (case (if (gs:get details 'waves #f) 'waves kind)
       ((waves) (+ 9 (gs:stencil-width (gs:small-word grob (gs:get details 'left "")))))
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

%% \gsWaves ##f #'((speed (0 . 0.5) (1 . 2)) (width (0 . 1))) (before a span or a trill that goes on): its waves, as
%% multiples of ordinary ones over the shares of its time. ##t: not a wave but + and o in turn.
gsWaves =
#(define-event-function (signs waves event) (boolean? list? ly:event?)
   (set! (ly:music-property event 'gs-details)
         `((waves . ,waves) (signs . ,signs) . ,(ly:music-property event 'gs-details)))
   event)

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
