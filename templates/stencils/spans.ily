%% Spanners above the staff (worded dashes, changes, lengths) and the band behind it.

#(define (gs:bound-x grob system side unit)
   (let* ((pieces (gs:pieces grob))
          (bound (ly:spanner-bound grob side))
          (outermost (eq? grob (if (= side LEFT) (first pieces) (last pieces))))
          (extent (ly:grob-robust-relative-extent bound system X)))
     (cond ((not outermost) (if (= side LEFT) (+ (cdr extent) (* 0.4 unit)) (- (car extent) (* 0.2 unit))))
           ((= side LEFT) (car extent))
           ((eq? 'at (gs:get (gs:details grob) 'to 'until)) (cdr extent))
           (else (- (car extent) (* 0.6 unit))))))

#(define (gs:glyph grob name)
   (grob-interpret-markup grob
     (case name
       ((stopped) (markup #:general-align Y CENTER #:musicglyph "scripts.stopped"))
       ((half-stopped) (markup #:general-align Y CENTER #:musicglyph "scripts.halfopen"))
       (else (markup #:general-align Y CENTER #:musicglyph "scripts.open")))))

#(define (gs:small-word grob text)
   (let ((word (grob-interpret-markup grob (markup #:fontsize -1 #:italic text))))
     ;; Words stand on the line's own height: the middle of a small letter.
     (if (ly:stencil-empty? word) word (ly:stencil-translate-axis word -0.45 Y))))

%% The two ends of a spanner above the staff: stencils (left . right), by its kind.
#(define (gs:ends grob details)
   (let ((left (gs:get details 'left "")) (right (gs:get details 'right "")))
     (case (gs:get details 'kind 'span)
       ((hand) (cons (gs:glyph grob left) (gs:glyph grob right)))
       (else (cons (gs:small-word grob left) (gs:small-word grob right))))))

#(define (gs:dashes x0 x1 thick)
   (let ((length (- x1 x0)))
     (if (< length 0.5) empty-stencil
         (make-path-stencil (gs:dash-commands (gs:path (lambda (x) 0.0) x0 x1) 0 length 0.55 0.55) thick 1 1 #f))))

%% word - dashes - hook; word or glyph - dashes with an arrow - word or glyph; |-- length --|.
#(define (gs:above-stencil grob)
   (let* ((details (gs:details grob))
          (system (ly:grob-system grob))
          (kind (gs:get details 'kind 'span))
          (pieces (gs:pieces grob))
          (first? (eq? grob (first pieces))) (last? (eq? grob (last pieces)))
          (x0 (gs:bound-x grob system LEFT 1)) (x1 (max (+ x0 1.0) (gs:bound-x grob system RIGHT 1)))
          (ends (gs:ends grob details))
          (thick 0.13)
          (width (lambda (s) (if (ly:stencil-empty? s) 0 (interval-length (ly:stencil-extent s X)))))
          (put (lambda (s x) (ly:stencil-translate-axis (ly:stencil-aligned-to s X LEFT) x X)))
          (all
           (case kind
             ((length)
              (let* ((text (grob-interpret-markup grob (markup #:fontsize -1 (if first? (gs:get details 'left "") ""))))
                     (text (ly:stencil-aligned-to (ly:stencil-aligned-to text X CENTER) Y CENTER))
                     (middle (/ (+ x0 x1) 2)) (half (if first? (+ 0.4 (/ (width text) 2)) 0))
                     (tick (lambda (x) (make-line-stencil thick x 0 x -0.7))))
                (ly:stencil-add
                 (ly:stencil-translate-axis text middle X)
                 (if (> (- middle half) x0) (make-line-stencil thick x0 0 (- middle half) 0) empty-stencil)
                 (if (< (+ middle half) x1) (make-line-stencil thick (+ middle half) 0 x1 0) empty-stencil)
                 (if first? (tick x0) empty-stencil)
                 (if last? (tick x1) empty-stencil))))
             ((span)
              (let* ((left (if first? (car ends) (gs:small-word grob (string-append "(" (gs:get details 'left "") ")"))))
                     (from (+ x0 (width left) 0.5)) (end (max x1 (+ from 0.6))))
                (ly:stencil-add (put left x0) (gs:dashes from end thick)
                                (if last? (make-line-stencil thick end 0 end -0.8) empty-stencil))))
             (else
              (let* ((left (if first? (car ends) empty-stencil)) (right (if last? (cdr ends) empty-stencil))
                     (from (if (= 0 (width left)) x0 (+ x0 (width left) 0.5)))
                     (to (max (+ from 1.4) (if (= 0 (width right)) x1 (- x1 (width right) 0.5)))))
                (ly:stencil-add (put left x0)
                                (gs:dashes from (if last? (- to 0.7) to) thick)
                                (if last? (gs:arrow-head (gs:path (lambda (x) 0.0) (- to 1.0) to) 1.0 0.8) empty-stencil)
                                (put right (+ to 0.4))))))))
     (ly:stencil-translate-axis all (- (ly:grob-relative-coordinate grob system X)) X)))

#(define gs:above-height
   (ly:make-unpure-pure-container ly:grob::stencil-height (lambda (grob start end) '(-0.8 . 1.2))))

%% A field behind the staff lines, between two staff positions, its limits drawn as thin lines: grey for the eye,
%% lines for the photocopier.
#(define (gs:band-stencil grob)
   (let* ((details (gs:details grob))
          (system (ly:grob-system grob))
          (staff (ly:grob-object grob 'staff-symbol))
          (unit (if (ly:grob? staff) (ly:staff-symbol-staff-space staff) 1))
          (c0 (ly:grob-property grob 'gs-middle-c -6))
          (event (event-cause grob))
          (height (lambda (name) (* 0.5 unit (+ c0 (ly:pitch-steps (ly:event-property event name))))))
          (low (- (height 'gs-low) (* 0.1 unit))) (high (+ (height 'gs-high) (* 0.1 unit)))
          (offset (if (ly:grob? staff) (gs:y grob staff) 0))
          (pieces (gs:pieces grob))
          (x0 (- (gs:bound-x grob system LEFT unit) (if (eq? grob (first pieces)) (* 0.7 unit) 0)))
          (x1 (+ (gs:bound-x grob system RIGHT unit) (* 0.35 unit)))
          (field (stencil-with-color (ly:round-filled-box (cons x0 x1) (cons low high) 0.0) (list 0.88 0.88 0.88)))
          (edge (lambda (y) (make-line-stencil (* 0.07 unit) x0 y x1 y))))
     (ly:stencil-translate
      (ly:stencil-add field (edge low) (edge high))
      (cons (- (ly:grob-relative-coordinate grob system X)) offset))))

#(define (gs:span-event kind details)
   (make-music 'GestureSpanEvent 'span-direction START 'gs-kind kind 'gs-details details))

%% \gsSpan "growl" ... \gsSpanEnd: a word, a dashed line, a hook where it ends.
gsSpan =
#(define-event-function (text) (string?)
   (gs:span-event 'span `((kind . span) (left . ,text))))
gsSpanEnd = #(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'span)

%% \gsTurn "air" "ord." ... \gsTurnEnd: one state goes over into another; an arrow, never a wave.
gsTurn =
#(define-event-function (from to) (string? string?)
   (gs:span-event 'turn `((kind . turn) (left . ,from) (right . ,to) (to . at))))
gsTurnEnd = #(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'turn)

%% \gsHandTurn #'(stopped open) ... \gsHandTurnEnd: the hand closes or opens on the way.
gsHandTurn =
#(define-event-function (states) (list?)
   (gs:span-event 'hand `((kind . hand) (left . ,(first states)) (right . ,(second states)) (to . at))))
gsHandTurnEnd = #(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'hand)

%% \gsLength "2.5 s" ... \gsLengthEnd: how long it lasts, under a bracket.
gsLength =
#(define-event-function (text) (string?)
   (gs:span-event 'length `((kind . length) (left . ,text))))
gsLengthEnd = #(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'length)

%% \gsBand g' f'' ... \gsBandEnd: the register band. Its pitches follow \transpose and the clef.
gsBand =
#(define-event-function (low high) (ly:pitch? ly:pitch?)
   (make-music 'GestureSpanEvent 'span-direction START 'gs-kind 'band 'gs-low low 'gs-high high))
gsBandEnd = #(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'band)
