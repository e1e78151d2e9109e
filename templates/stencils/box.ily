%% Boxes: a frame around what is repeated freely, followed by a thick line with an arrow for as long as it is repeated.

%% From where to where the notes of a staff reach that are between two places of a line.
#(define gs:framed '(NoteHead Flag StemTremolo Dots Rest Accidental GestureBracket GestureEdge))
#(define (gs:same-staff? grob other)
   (not (memq (grob::name (ly:grob-common-refpoint grob other Y)) '(System VerticalAlignment))))
#(define (gs:framed-reaches grob system x0 x1)
   (let ((mine (filter (lambda (g) (and (memq (grob::name g) gs:framed) (gs:printed? g) (gs:same-staff? grob g)))
                       (ly:grob-array->list (ly:grob-object system 'all-elements)))))
     (filter (lambda (x) (and (finite? (car x)) (> (cdr x) x0) (< (car x) x1)))
             (map (lambda (g) (ly:grob-extent g system X)) mine))))

#(define (gs:frame-edges grob system unit)
   (let* ((left (ly:spanner-bound grob LEFT)) (right (ly:spanner-bound grob RIGHT))
          (heads (gs:list left 'note-heads))
          (extent (gs:printed-reach left system))
          (x0 (if (and (pair? heads) (gs:first-piece? grob))
                  (- (car (gs:reach (append heads (gs:accidentals heads)) system)) (* 0.7 unit))
                  (- (car extent) (* 0.5 unit))))
          (x1 (- (car (gs:printed-reach right system)) (* 0.4 unit))))
     (cons x0 (max x1 (+ x0 (* 2 unit))))))

%% From where to where a piece of a frame is drawn; `grob` is the frame or one of its edges. What is written above or
%% below is inside too, as far to the right as it reaches.
#(define gs:framed-texts '(GestureWords GestureNotedWords TextScript DynamicText))
#(define (gs:frame-reach grob)
   (let* ((system (ly:grob-system grob))
          (unit (gs:staff-space grob))
          (edges (gs:frame-edges grob system unit))
          (notes (gs:framed-reaches grob system (car edges) (cdr edges)))
          (first (filter (lambda (x) (< (car x) (+ (car edges) (* 2 unit)))) notes))
          (x0 (apply min (car edges) (map (lambda (x) (- (car x) (* 0.5 unit))) first)))
          ;; A breath after the last note is inside.
          (breaths (filter (gs:grob-named? 'BreathingSign) (gs:list (ly:spanner-bound grob RIGHT) 'elements)))
          (breath (if (null? breaths) #f (gs:reach breaths system)))
          ;; The same padding on the right as on the left; the next thing may be a frame as well.
          (x1 (if (gs:last-piece? grob)
                  (if breath (+ (cdr breath) (* 0.6 unit)) (min (cdr edges) (apply max (+ x0 (* 2 unit)) (map (lambda (x) (+ (cdr x) (* 0.7 unit))) notes))))
                  (cdr edges)))
          (texts (filter (lambda (g)
                           (and (memq (grob::name g) gs:framed-texts) (gs:same-staff? grob g)
                                (< (- x0 unit) (ly:grob-relative-coordinate g system X) (cdr edges))))
                         (ly:grob-array->list (ly:grob-object system 'all-elements))))
          (reaches (map (lambda (g) (ly:grob-extent g system X)) texts))
          (lefts (filter finite? (map (lambda (r) (- (car r) (* 0.4 unit))) reaches)))
          (wide (apply max x1 (filter finite? (map (lambda (r) (- (cdr r) (* 0.8 unit))) reaches)))))
     ;; A level is wider than its head, but the frame before it may be close.
     (cons (max (apply min x0 lefts) (- x0 (* 0.5 unit)))
           (if (gs:last-piece? grob) (max x1 (min wide (cdr edges))) x1))))

#(define (gs:frame-thickness grob) (* 0.22 (gs:staff-space grob)))
%% The edge above or below begins clear of what belongs to the notes, or it would slip in below a word; LilyPond then
%% moves it clear of everything else.
#(define gs:framed-above-and-below
   `(,@gs:framed-texts Hairpin GestureRowText GestureAbove TrillSpanner OttavaBracket))
#(define (gs:frame-edge-offset grob)
   (let* ((system (ly:grob-system grob)) (staff (ly:grob-object grob 'staff-symbol))
          (reach (gs:frame-reach grob)) (up? (= UP (ly:grob-property grob 'direction)))
          (boxes (filter-map
                  (lambda (g) (and (memq (grob::name g) gs:framed-above-and-below) (gs:printed? g) (gs:same-staff? grob g)
                                   (gs:box staff g system)))
                  (ly:grob-array->list (ly:grob-object system 'all-elements))))
          (inside (filter (lambda (b) (< (car reach) (* 0.5 (+ (car b) (cadr b))) (cdr reach))) boxes))
          (pad (* 0.6 (gs:staff-space grob))))
     (if up? (apply max 0 (map (lambda (b) (+ (cadddr b) pad)) inside))
         (apply min 0 (map (lambda (b) (- (caddr b) pad)) inside)))))
%% With the words on it.
#(define (gs:frame-edge-stencil grob)
   (let ((reach (gs:frame-reach grob)) (text (gs:get (gs:details grob) 'text "")))
     (ly:stencil-translate-axis
      (ly:stencil-add
       (make-line-stencil (gs:frame-thickness grob) (car reach) 0 (cdr reach) 0)
       (if (and (gs:first-piece? grob) (not (string-null? text)))
           (ly:stencil-translate
            (ly:stencil-aligned-to (ly:stencil-aligned-to (grob-interpret-markup grob (gs:word text)) X LEFT) Y DOWN)
            (cons (car reach) (* 0.7 (gs:staff-space grob))))
           empty-stencil))
      (- (ly:grob-relative-coordinate grob (ly:grob-system grob) X)) X)))
%% The sides, from edge to edge: printed last, when these are in their places.
#(define (gs:frame-stencil grob)
   (let* ((system (ly:grob-system grob))
          (reach (gs:frame-reach grob))
          (edges (filter (lambda (g)
                           (and (eq? 'GestureFrameEdge (grob::name g)) (gs:same-staff? grob g)
                                (eq? (ly:spanner-bound grob LEFT) (ly:spanner-bound g LEFT))))
                         (ly:grob-array->list (ly:grob-object system 'all-elements))))
          (ys (map (lambda (g) (ly:grob-relative-coordinate g (ly:grob-common-refpoint g grob Y) Y)) edges))
          (here (if (null? edges) 0 (ly:grob-relative-coordinate grob (ly:grob-common-refpoint (car edges) grob Y) Y)))
          (side (lambda (x)
                  (make-line-stencil (gs:frame-thickness grob) x (- (apply min ys) here) x (- (apply max ys) here)))))
     (if (null? ys) empty-stencil
         (ly:stencil-translate-axis
          (ly:stencil-add (if (gs:first-piece? grob) (side (car reach)) empty-stencil)
                          (if (gs:last-piece? grob) (side (cdr reach)) empty-stencil))
          (- (ly:grob-relative-coordinate grob system X)) X))))
#(define (gs:frame-width grob)
   (let ((reach (gs:frame-reach grob)) (x (ly:grob-relative-coordinate grob (ly:grob-system grob) X)))
     (interval-widen (cons (- (car reach) x) (- (cdr reach) x)) (* 0.5 (gs:frame-thickness grob)))))

%% Room for words within their frame.
#(define (gs:frame-room grob)
   (+ 2.6 (cdr (ly:stencil-extent (gs:word-stencil-where (gs:get (gs:details grob) 'words #f) not gs:unknown-numbers) X))))

%% \gsFrame ... \gsFrameEnd: around the notes from here to its end, and what is written above and below them.
gsFrame = #(gs:start 'frame '())
%% \gsFrameWords "any order": words above a frame that begins here.
gsFrameWords =
#(define-event-function (text) (string?) (gs:sign 'title `((text . ,text))))
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
       (ly:stencil-translate (ly:stencil-aligned-to word X LEFT) (cons (+ x0 (* 0.5 unit)) (* 3.1 unit))))
      (cons (- (ly:grob-relative-coordinate grob system X)) middle))))
#(define (gs:goes-on-room grob)
   (+ 3.5 (max 4 (gs:stencil-width (grob-interpret-markup grob (markup #:fontsize -1 (gs:get (gs:details grob) 'text "")))))))
#(define gs:goes-on-height
   (ly:make-unpure-pure-container ly:grob::stencil-height (lambda (grob start end) '(-1 . 4.6))))

%% \gsGoesOn "20 s" ... \gsGoesOnEnd: what is in the box is repeated from here to the arrow.
gsGoesOn =
#(define-event-function (text) (string?) (gs:start 'goes-on `((text . ,text))))
gsGoesOnEnd = #(gs:stop 'goes-on)
