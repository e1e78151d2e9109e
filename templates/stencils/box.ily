%% Boxes: a frame around what is repeated freely, followed by a thick line with an arrow for as long as it is repeated.

%% The grobs of a staff between two places of a line, except those above and below that move out of the way.
#(define gs:framed
   '(NoteHead Stem StemTremolo Beam Flag Dots Slur Script Rest Accidental TupletNumber TupletBracket Tie GestureBracket GestureEdge))
#(define (gs:same-staff? grob other)
   (not (memq (grob::name (ly:grob-common-refpoint grob other Y)) '(System VerticalAlignment))))
#(define (gs:framed-boxes grob system staff x0 x1)
   (let* ((all (ly:grob-array->list (ly:grob-object system 'all-elements)))
          (mine (filter (lambda (g)
                          (and (memq (grob::name g) gs:framed) (gs:printed? g) (gs:same-staff? grob g)
                               (not (number? (ly:grob-property g 'outside-staff-priority #f)))))
                        all))
          (boxes (filter-map (lambda (g) (gs:box grob g system)) mine)))
     (filter (lambda (b) (and (> (cadr b) x0) (< (car b) x1) (finite? (caddr b)) (finite? (cadddr b)))) boxes)))

#(define (gs:frame-edges grob system unit)
   (let* ((left (ly:spanner-bound grob LEFT)) (right (ly:spanner-bound grob RIGHT))
          (heads (gs:list left 'note-heads))
          (extent (gs:printed-reach left system))
          (x0 (if (and (pair? heads) (gs:first-piece? grob))
                  (- (car (gs:reach (append heads (gs:accidentals heads)) system)) (* 0.7 unit))
                  (- (car extent) (* 0.5 unit))))
          (x1 (- (car (gs:printed-reach right system)) (* 0.4 unit))))
     (cons x0 (max x1 (+ x0 (* 2 unit))))))

#(define (gs:frame-stencil grob)
   (let* ((system (ly:grob-system grob))
          (staff (ly:grob-object grob 'staff-symbol))
          (unit (gs:staff-space grob))
          (edges (gs:frame-edges grob system unit))
          (middle (if (ly:grob? staff) (gs:y grob staff) 0))
          (boxes (gs:framed-boxes grob system staff (car edges) (cdr edges)))
          (first (filter (lambda (b) (< (car b) (+ (car edges) (* 2 unit)))) boxes))
          (x0 (apply min (car edges) (map (lambda (b) (- (car b) (* 0.5 unit))) first)))
          ;; A breath after the last note is inside.
          (breaths (filter (gs:grob-named? 'BreathingSign) (gs:list (ly:spanner-bound grob RIGHT) 'elements)))
          (breath (if (null? breaths) #f (gs:reach breaths system)))
          ;; The same padding on the right as on the left; the next thing may be a frame as well.
          (x1 (if (gs:last-piece? grob)
                  (if breath (+ (cdr breath) (* 0.6 unit)) (min (cdr edges) (apply max (+ x0 (* 2 unit)) (map (lambda (b) (+ (cadr b) (* 0.7 unit))) boxes))))
                  (cdr edges)))
          (low (apply min (- middle (* 2.7 unit)) (map (lambda (b) (- (caddr b) (* 0.6 unit))) boxes)))
          (high (apply max (+ middle (* 2.7 unit)) (map (lambda (b) (+ (cadddr b) (* 0.6 unit))) boxes)))
          (line (lambda (xa ya xb yb) (make-line-stencil (* 0.22 unit) xa ya xb yb))))
     (ly:stencil-translate-axis
      (ly:stencil-add
       (line x0 low x1 low) (line x0 high x1 high)
       (if (gs:first-piece? grob) (line x0 low x0 high) empty-stencil)
       (if (gs:last-piece? grob) (line x1 low x1 high) empty-stencil))
      (- (ly:grob-relative-coordinate grob system X)) X)))

%% \gsFrame ... \gsFrameEnd: around the notes from here to its end.
gsFrame = #(gs:start 'frame '())
gsFrameEnd = #(gs:stop 'frame)

#(define (gs:goes-on-word grob)
   (let ((text (gs:get (gs:details grob) 'text "")))
     (grob-interpret-markup
      grob (markup #:fontsize -1 (if (gs:first-piece? grob) text (string-append "(" text ")"))))))
%% The line begins at the frame before it, if that is on the same system.
#(define (gs:after-frame grob system x0)
   (let* ((frames (filter (lambda (g) (and (eq? 'GestureFrame (grob::name g)) (gs:same-staff? grob g)))
                          (ly:grob-array->list (ly:grob-object system 'all-elements))))
          (edges (map (lambda (f) (cdr (ly:grob-extent f system X))) frames))
          (before (filter (lambda (x) (and (finite? x) (< x (+ x0 1)))) edges)))
     (if (null? before) x0 (apply max before))))
#(define (gs:goes-on-stencil grob)
   (let* ((system (ly:grob-system grob))
          (staff (ly:grob-object grob 'staff-symbol))
          (unit (gs:staff-space grob))
          (middle (if (ly:grob? staff) (gs:y grob staff) 0))
          (left (ly:spanner-bound grob LEFT))
          (x0 (if (gs:first-piece? grob) (gs:after-frame grob system (ly:grob-relative-coordinate left system X))
                  (+ (cdr (gs:printed-reach left system)) (* 0.4 unit))))
          (end (- (car (gs:printed-reach (ly:spanner-bound grob RIGHT) system)) (* 0.8 unit)))
          (x1 (max end (+ x0 (* 3 unit))))
          (head (* 1.3 unit)) (half (* 0.55 unit)) (last? (gs:last-piece? grob))
          (word (gs:goes-on-word grob)))
     (ly:stencil-translate
      (ly:stencil-add
       (make-line-stencil (* 0.4 unit) x0 0 (if last? (- x1 (* 0.8 head)) x1) 0)
       (if last? (make-path-stencil (list 'moveto x1 0 'lineto (- x1 head) half 'lineto (- x1 head) (- half) 'closepath)
                                    0 1 1 #t)
           empty-stencil)
       (ly:stencil-translate (ly:stencil-aligned-to word X LEFT) (cons (+ x0 (* 0.3 unit)) (* 3.1 unit))))
      (cons (- (ly:grob-relative-coordinate grob system X)) middle))))
#(define (gs:goes-on-room grob)
   (+ 3.5 (max 4 (gs:stencil-width (grob-interpret-markup grob (markup #:fontsize -1 (gs:get (gs:details grob) 'text "")))))))
#(define gs:goes-on-height
   (ly:make-unpure-pure-container ly:grob::stencil-height (lambda (grob start end) '(-1 . 4.6))))
#(define gs:frame-height
   (ly:make-unpure-pure-container ly:grob::stencil-height (lambda (grob start end) '(-3.6 . 3.6))))

%% \gsGoesOn "20 s" ... \gsGoesOnEnd: what is in the box is repeated from here to the arrow.
gsGoesOn =
#(define-event-function (text) (string?) (gs:start 'goes-on `((text . ,text))))
gsGoesOnEnd = #(gs:stop 'goes-on)
