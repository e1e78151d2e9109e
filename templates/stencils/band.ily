%% The register band: a grey field behind the staff lines between two pitches. Its limits are separate lines, dark
%% enough for a photocopier that only makes black and white.

#(define (gs:edges-at note-column)
   (filter (gs:grob-named? 'GestureEdge) (gs:list (ly:item-get-column note-column) 'elements)))
#(define (gs:band-edge grob system side unit)
   (let* ((bound (ly:spanner-bound grob side))
          (heads (gs:list bound 'note-heads))
          (extent (gs:printed-reach bound system)))
     (cond ((and (= side LEFT) (pair? heads) (gs:first-piece? grob))
            (- (car (gs:reach (append heads (gs:accidentals heads) (gs:edges-at bound)) system)) (* 0.6 unit)))
           ((= side LEFT) (+ (cdr extent) (* 0.3 unit)))
           ;; As far from a bar line as where it begins: closer, both would read as a double bar line.
           (else (max (- (car extent) (* 1.4 unit))
                      (+ (* 0.3 unit) (gs:last-reach grob system -inf.0)))))))

%% The right end of the last heads of a band.
#(define (gs:last-reach grob system default)
   (let* ((staff (ly:grob-object grob 'staff-symbol))
          (right (ly:grob-relative-coordinate (ly:spanner-bound grob RIGHT) system X))
          (heads (filter (lambda (h) (eq? staff (ly:grob-object h 'staff-symbol)))
                         (append-map (lambda (e) (gs:list e 'note-heads))
                                     (append-map (lambda (c) (gs:list c 'elements)) (gs:list system 'columns)))))
          (ends (filter (lambda (x) (< x right))
                        (filter-map (lambda (h) (let ((r (gs:reach (list h) system))) (and r (cdr r)))) heads))))
     (apply max default ends)))

#(define (gs:pad-offset grob)
   (let ((heads (gs:list grob 'note-heads)))
     (car (gs:reach (append heads (gs:accidentals heads)) (ly:grob-parent grob X)))))

%% If the last head has brackets, where a line stops, the band ends after them, far enough that its edge and theirs do
%% not read as a double line (our own judgement); otherwise it extends to what comes next.
#(define (gs:band-end grob system x0 unit)
   (let* ((end (car (gs:printed-reach (ly:spanner-bound grob RIGHT) system)))
          (signs (filter (lambda (e)
                           (and (memq (grob::name e) '(GestureBracket GestureEdge))
                                (eq? (ly:grob-object e 'staff-symbol) (ly:grob-object grob 'staff-symbol))))
                         (append-map (lambda (c) (gs:list c 'elements)) (gs:list system 'columns))))
          (reaches (filter-map (lambda (s) (gs:reach (list s) system)) signs))
          (inside (filter (lambda (r) (and (> (cdr r) x0) (< (car r) end))) reaches)))
     (if (and (pair? inside) (gs:last-piece? grob))
         (+ (* 0.9 unit) (apply max (map cdr inside)))
         (gs:band-edge grob system RIGHT unit))))

#(define (gs:band-heights grob)
   (let* ((event (event-cause grob))
          (c0 (gs:get (ly:grob-property grob 'details) 'middle-c -6))
          (limit (lambda (name side)
                   (let ((position (+ c0 (ly:pitch-steps (ly:event-property event name)))))
                     (* 0.5 (+ position (* side (gs:band-margin position))))))))
     (cons (limit 'gs-low -1) (limit 'gs-high 1))))

%% How far beyond its pitch a limit is drawn, in half staff spaces: as far as possible from the staff lines.
#(define (gs:band-margin position)
   (if (and (odd? position) (< (abs position) 5)) 0.5 0.9))

%% The stretches of a limit from x0 to x1 without a head, bracket or tie: the line is interrupted for these.
#(define (gs:limit-stretches grob system staff height x0 x1 unit)
   (let* ((middle (if (ly:grob? staff) (gs:y grob staff) 0))
          (gap (* 0.2 unit))
          (elements (append-map (lambda (c) (gs:list c 'elements)) (gs:list system 'columns)))
          (signs (append (append-map (lambda (e) (gs:list e 'note-heads)) elements)
                         (filter (gs:grob-named? 'GestureBracket) elements)))
          (ties (filter (gs:grob-named? 'Tie) (gs:list system 'all-elements)))
          (here (append (filter (lambda (s) (eq? staff (ly:grob-object s 'staff-symbol))) signs)
                        (filter (lambda (t) (eq? staff (ly:grob-object (ly:spanner-bound t LEFT) 'staff-symbol))) ties)))
          (boxes (filter-map (lambda (s) (and (gs:printed? s) (gs:box grob s system))) here))
          (crossed (filter (lambda (b) (< (- (caddr b) gap) (+ middle height) (+ (cadddr b) gap))) boxes)))
     (let loop ((x x0) (rest (sort crossed (lambda (a b) (< (car a) (car b))))) (found '()))
       (if (null? rest) (reverse (if (< x x1) (cons (cons x x1) found) found))
           (let ((from (- (car (car rest)) gap)) (to (+ (cadr (car rest)) gap)))
             (if (or (<= to x) (>= from x1)) (loop x (cdr rest) found)
                 (loop to (cdr rest) (if (> from x) (cons (cons x from) found) found))))))))

#(define (gs:band-stencil grob)
   (let* ((system (ly:grob-system grob))
          (staff (ly:grob-object grob 'staff-symbol))
          (unit (gs:staff-space grob))
          (heights (gs:band-heights grob))
          (low (* unit (car heights))) (high (* unit (cdr heights)))
          (x0 (gs:band-edge grob system LEFT unit))
          (x1 (max (+ x0 unit) (gs:band-end grob system x0 unit)))
          (field (stencil-with-color (ly:round-filled-box (cons x0 x1) (cons low high) 0.0) (list 0.87 0.87 0.87)))
          (line (lambda (xa ya xb yb) (make-line-stencil (* 0.09 unit) xa ya xb yb)))
          (limit (lambda (y)
                   (map (lambda (x) (line (car x) y (cdr x) y))
                        (gs:limit-stretches grob system staff y x0 x1 unit)))))
     (ly:stencil-translate
      (apply ly:stencil-add
             field
             ;; Closed at both ends, so that the limits do not read as staff lines.
             (if (gs:first-piece? grob) (line x0 low x0 high) empty-stencil)
             (if (gs:last-piece? grob) (line x1 low x1 high) empty-stencil)
             (append (limit low) (limit high)))
      (cons (- (ly:grob-relative-coordinate grob system X))
            (if (ly:grob? staff) (gs:y grob staff) 0)))))

#(define gs:band-extent
   (ly:make-unpure-pure-container ly:grob::stencil-height (lambda (grob start end) (gs:band-heights grob))))

%% \gsBand g' f'' ... \gsBandEnd: the register band. Its pitches follow \transpose and the clef.
gsBand =
#(define-event-function (low high) (ly:pitch? ly:pitch?)
   (make-music 'GestureSpanEvent 'span-direction START 'gs-kind 'band 'gs-low low 'gs-high high))
gsBandEnd = #(gs:stop 'band)
