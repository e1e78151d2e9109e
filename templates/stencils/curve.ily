%% Curves: from points to a smooth path, its free stretches, and the lines drawn along it.
%% All lengths are in staff spaces of the paper; a path is a list (X Y S) of vectors: places and arc length.

#(use-modules (srfi srfi-1))

#(define (gs:get details key default)
   (let ((found (assq key details))) (if found (cdr found) default)))

%% Tangents of a monotone cubic (Fritsch and Carlson 1980): the highest point given stays the highest.
#(define (gs:tangents xs ys)
   (let* ((n (vector-length xs))
          (m (make-vector n 0.0))
          (h (lambda (i) (- (vector-ref xs (1+ i)) (vector-ref xs i))))
          (d (lambda (i) (/ (- (vector-ref ys (1+ i)) (vector-ref ys i)) (h i)))))
     (if (= n 2)
         (begin (vector-set! m 0 (d 0)) (vector-set! m 1 (d 0))))
     (if (> n 2)
         (begin
          (for-each
           (lambda (i)
             (let ((a (d (1- i))) (b (d i))
                   (w1 (+ (* 2 (h i)) (h (1- i)))) (w2 (+ (h i) (* 2 (h (1- i))))))
               (if (> (* a b) 0)
                   (vector-set! m i (/ (+ w1 w2) (+ (/ w1 a) (/ w2 b)))))))
           (iota (- n 2) 1))
          (vector-set! m 0 (gs:end-tangent (h 0) (h 1) (d 0) (d 1)))
          (vector-set! m (1- n) (gs:end-tangent (h (- n 2)) (h (- n 3)) (d (- n 2)) (d (- n 3))))))
     m))

#(define (gs:end-tangent h0 h1 d0 d1)
   (let ((s (/ (- (* (+ (* 2 h0) h1) d0) (* h0 d1)) (+ h0 h1))))
     (cond ((<= (* s d0) 0) 0.0)
           ((and (<= (* d0 d1) 0) (> (abs s) (* 3 (abs d0)))) (* 3 d0))
           (else s))))

%% Points ((x . y) ...), x rising, to a procedure x -> y; straight from point to point where `straight`.
#(define (gs:through points straight)
   (let* ((xs (list->vector (map (lambda (p) (exact->inexact (car p))) points)))
          (ys (list->vector (map (lambda (p) (exact->inexact (cdr p))) points)))
          (last (1- (vector-length xs)))
          (m (gs:tangents xs ys)))
     (lambda (x)
       (cond
        ((<= x (vector-ref xs 0)) (vector-ref ys 0))
        ((>= x (vector-ref xs last)) (vector-ref ys last))
        (else
         (let* ((i (let loop ((i 0)) (if (< x (vector-ref xs (1+ i))) i (loop (1+ i)))))
                (x0 (vector-ref xs i)) (x1 (vector-ref xs (1+ i)))
                (y0 (vector-ref ys i)) (y1 (vector-ref ys (1+ i)))
                (h (- x1 x0)) (t (/ (- x x0) h)) (t2 (* t t)) (t3 (* t2 t)))
           (if straight
               (+ y0 (* t (- y1 y0)))
               (+ (* y0 (+ (* 2 t3) (* -3 t2) 1)) (* h (vector-ref m i) (+ t3 (* -2 t2) t))
                  (* y1 (+ (* -2 t3) (* 3 t2))) (* h (vector-ref m (1+ i)) (- t3 t2))))))))))

#(define (gs:path f x0 x1)
   (let* ((n (max 24 (inexact->exact (ceiling (/ (- x1 x0) 0.06)))))
          (xs (make-vector (1+ n))) (ys (make-vector (1+ n))) (ss (make-vector (1+ n) 0.0)))
     (for-each
      (lambda (i)
        (let ((x (+ x0 (* (- x1 x0) (/ i n)))))
          (vector-set! xs i (exact->inexact x))
          (vector-set! ys i (f x))
          (if (> i 0)
              (let ((dx (- x (vector-ref xs (1- i)))) (dy (- (vector-ref ys i) (vector-ref ys (1- i)))))
                (vector-set! ss i (+ (vector-ref ss (1- i)) (sqrt (+ (* dx dx) (* dy dy)))))))))
      (iota (1+ n)))
     (list xs ys ss)))

#(define (gs:path-length path)
   (let ((ss (third path))) (vector-ref ss (1- (vector-length ss)))))

%% Where the path is after `s` of its length, as (x . y).
#(define (gs:along path s)
   (let* ((xs (first path)) (ys (second path)) (ss (third path)) (n (1- (vector-length ss))))
     (cond
      ((<= s 0) (cons (vector-ref xs 0) (vector-ref ys 0)))
      ((>= s (vector-ref ss n)) (cons (vector-ref xs n) (vector-ref ys n)))
      (else
       (let loop ((lo 0) (hi n))
         (if (> (- hi lo) 1)
             (let ((mid (quotient (+ lo hi) 2)))
               (if (<= (vector-ref ss mid) s) (loop mid hi) (loop lo mid)))
             (let* ((s0 (vector-ref ss lo)) (s1 (vector-ref ss hi)) (u (if (> s1 s0) (/ (- s s0) (- s1 s0)) 0)))
               (cons (+ (vector-ref xs lo) (* u (- (vector-ref xs hi) (vector-ref xs lo))))
                     (+ (vector-ref ys lo) (* u (- (vector-ref ys hi) (vector-ref ys lo))))))))))))

%% The direction at `s`, a unit vector, smoothed over `reach` on both sides.
#(define (gs:direction path s reach)
   (let* ((a (gs:along path (- s reach))) (b (gs:along path (+ s reach)))
          (dx (- (car b) (car a))) (dy (- (cdr b) (cdr a))) (l (sqrt (+ (* dx dx) (* dy dy)))))
     (if (> l 1e-6) (cons (/ dx l) (/ dy l)) (cons 1.0 0.0))))

%% The stretches (from . to) of arc length that lie outside all boxes (left right bottom top).
#(define (gs:free-stretches path boxes shortest)
   (let ((whole (gs:path-length path))
         (inside? (lambda (p)
                    (any (lambda (b)
                           (and (< (first b) (car p) (second b)) (< (third b) (cdr p) (fourth b))))
                         boxes))))
     (let loop ((s 0.0) (from #f) (found '()))
       (let ((blocked (inside? (gs:along path s))) (end (>= s whole)))
         (cond
          (end
           (filter (lambda (r) (>= (- (cdr r) (car r)) shortest))
                   (reverse (if (and from (not blocked)) (cons (cons from whole) found)
                                (if from (cons (cons from s) found) found)))))
          (blocked (loop (min whole (+ s 0.03)) #f (if from (cons (cons from s) found) found)))
          (else (loop (min whole (+ s 0.03)) (or from s) found)))))))

%% Nodes ((x . y) . (tx . ty)), `step` of the parameter apart, to path commands.
#(define (gs:nodes->commands nodes step)
   (let ((k (/ step 3)))
     (append
      (list 'moveto (caaar nodes) (cdaar nodes))
      (append-map
       (lambda (a b)
         (list 'curveto
               (+ (caar a) (* k (cadr a))) (+ (cdar a) (* k (cddr a)))
               (- (caar b) (* k (cadr b))) (- (cdar b) (* k (cddr b)))
               (caar b) (cdar b)))
       (drop-right nodes 1) (cdr nodes)))))

#(define (gs:plain-nodes path s0 s1)
   (let* ((n (max 1 (inexact->exact (ceiling (/ (- s1 s0) 0.7))))) (step (/ (- s1 s0) n)))
     (cons step
           (map (lambda (i)
                  (let ((s (+ s0 (* i step)))) (cons (gs:along path s) (gs:direction path s 0.05))))
                (iota (1+ n))))))

%% A wave along the path: an even number of half waves, so that it leaves and arrives on the path itself.
#(define (gs:wave-nodes path s0 s1 amplitude wavelength)
   (let* ((length (- s1 s0))
          (halves (* 2 (max 1 (inexact->exact (round (/ length wavelength))))))
          (own (/ (* 2 length) halves))
          (n (* 2 halves)) (step (/ length n)))
     (cons step
           (map (lambda (i)
                  (let* ((s (+ s0 (* i step))) (p (gs:along path s)) (d (gs:direction path s (/ own 2)))
                         (phase (* i (/ PI 2))) (a (amplitude s))
                         (out (* a (sin phase)))
                         (slope (* a (cos phase) (/ (* 2 PI) own))))
                    (cons (cons (- (car p) (* out (cdr d))) (+ (cdr p) (* out (car d))))
                          (cons (- (car d) (* slope (cdr d))) (+ (cdr d) (* slope (car d)))))))
                (iota (1+ n))))))

%% Dashes of length `on`: whole ones at both ends, the gaps between stretched to fit.
#(define (gs:dash-commands path s0 s1 on off)
   (let* ((length (- s1 s0))
          (count (max 2 (1+ (inexact->exact (round (/ (- length on) (+ on off)))))))
          (pitch (/ (- length on) (1- count))))
     (append-map
      (lambda (i)
        (let* ((from (+ s0 (* i pitch))) (nodes (gs:plain-nodes path from (+ from on))))
          (gs:nodes->commands (cdr nodes) (car nodes))))
      (iota count))))

%% One free stretch of a line, in the style of its details.
#(define (gs:draw-stretch path s0 s1 details unit)
   (let* ((style (gs:get details 'style 'wavy))
          (thick (* unit (gs:get details 'thickness 0.16)))
          (whole (gs:path-length path))
          (swing (* unit (gs:get details 'amplitude 0.32)))
          (amplitude (case (gs:get details 'growth 'steady)
                       ((growing) (lambda (s) (* swing (+ 0.35 (* 1.25 (/ s whole))))))
                       ((fading) (lambda (s) (* swing (- 1.6 (* 1.25 (/ s whole))))))
                       (else (lambda (s) swing))))
          (stroke (lambda (commands t) (make-path-stencil commands t 1 1 #f)))
          (of-nodes (lambda (nodes) (gs:nodes->commands (cdr nodes) (car nodes)))))
     (case style
       ((broken) (stroke (gs:dash-commands path s0 s1 (* unit 0.8) (* unit 0.55)) thick))
       ((dotted) (stroke (gs:dash-commands path s0 s1 (* unit 0.01) (* unit 0.55)) (* 1.6 thick)))
       ((wavy) (stroke (of-nodes (gs:wave-nodes path s0 s1 amplitude (* unit (gs:get details 'wavelength 1.05)))) thick))
       (else (stroke (of-nodes (gs:plain-nodes path s0 s1)) thick)))))

%% A filled arrow head whose tip is at `s`.
#(define (gs:arrow-head path s size)
   (let* ((tip (gs:along path s)) (d (gs:direction path (- s (* 0.5 size)) (* 0.5 size)))
          (w (* 0.36 size)) (x (- (car tip) (* size (car d)))) (y (- (cdr tip) (* size (cdr d)))))
     (make-path-stencil
      (list 'moveto (car tip) (cdr tip)
            'lineto (- x (* w (cdr d))) (+ y (* w (car d)))
            'lineto (+ x (* 0.25 size (car d))) (+ y (* 0.25 size (cdr d)))
            'lineto (+ x (* w (cdr d))) (- y (* w (car d)))
            'closepath)
      0.03 1 1 #t)))
