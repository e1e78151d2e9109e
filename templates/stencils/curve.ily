%% Curves: from points to a path. Lengths are in staff spaces of the paper; a path is a list (X Y S) of vectors:
%% places, and the arc length up to each.

%% Tangents of a monotone cubic (Fritsch and Carlson 1980): the highest given point stays the highest.
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
          (m (if straight #f (gs:tangents xs ys))))
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

%% The path through some points: most finely divided where it is steep, with a place at every point.
#(define (gs:path points straight)
   (let* ((f (gs:through points straight))
          (between (lambda (a b)
                     (let* ((dx (- (car b) (car a)))
                            (n (max 5 (inexact->exact (ceiling (/ (max dx (abs (- (cdr b) (cdr a)))) 0.15))))))
                       (map (lambda (i) (+ (car a) (* dx (/ (1+ i) n)))) (iota n)))))
          (xs (cons (caar points) (append-map between (drop-right points 1) (cdr points))))
          (ys (map f xs))
          (steps (map (lambda (x0 y0 x1 y1) (sqrt (+ (* (- x1 x0) (- x1 x0)) (* (- y1 y0) (- y1 y0)))))
                      (drop-right xs 1) (drop-right ys 1) (cdr xs) (cdr ys)))
          (lengths (reverse (fold (lambda (step done) (cons (+ step (car done)) done)) '(0.0) steps))))
     (list (list->vector (map exact->inexact xs)) (list->vector ys) (list->vector lengths))))

#(define (gs:path-length path)
   (let ((ss (caddr path))) (vector-ref ss (1- (vector-length ss)))))

%% The last index of a rising vector whose value is not above `v`; at most the last but one.
#(define (gs:index vec v)
   (let loop ((lo 0) (hi (1- (vector-length vec))))
     (if (> (- hi lo) 1)
         (let ((mid (quotient (+ lo hi) 2)))
           (if (<= (vector-ref vec mid) v) (loop mid hi) (loop lo mid)))
         lo)))

%% Where the path is after `s` of its length, as (x . y).
#(define (gs:along path s)
   (let* ((xs (car path)) (ys (cadr path)) (ss (caddr path)) (n (1- (vector-length ss))))
     (cond
      ((<= s 0) (cons (vector-ref xs 0) (vector-ref ys 0)))
      ((>= s (vector-ref ss n)) (cons (vector-ref xs n) (vector-ref ys n)))
      (else
       (let* ((i (gs:index ss s)) (s0 (vector-ref ss i)) (s1 (vector-ref ss (1+ i)))
              (u (if (> s1 s0) (/ (- s s0) (- s1 s0)) 0)))
         (cons (+ (vector-ref xs i) (* u (- (vector-ref xs (1+ i)) (vector-ref xs i))))
               (+ (vector-ref ys i) (* u (- (vector-ref ys (1+ i)) (vector-ref ys i))))))))))

%% The direction at `s`, a unit vector, smoothed over `reach` on both sides.
#(define (gs:direction path s reach)
   (let* ((a (gs:along path (- s reach))) (b (gs:along path (+ s reach)))
          (dx (- (car b) (car a))) (dy (- (cdr b) (cdr a))) (l (sqrt (+ (* dx dx) (* dy dy)))))
     (if (> l 1e-6) (cons (/ dx l) (/ dy l)) (cons 1.0 0.0))))
