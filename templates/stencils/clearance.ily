%% What a line keeps clear of. An obstacle is a vector #(left right bottom top radius): a box, and how far from it the
%% middle of the line stays. Heads are round: their boxes are smaller and the radius larger by the same amount, so that
%% the gap is equal on every side.

#(define (gs:box grob other system)
   (let* ((x (ly:grob-extent other system X))
          (common (ly:grob-common-refpoint grob other Y))
          (y (ly:grob-extent other common Y))
          (origin (ly:grob-relative-coordinate grob common Y)))
     (if (or (interval-empty? x) (interval-empty? y)) #f
         (list (car x) (cdr x) (- (car y) origin) (- (cdr y) origin)))))

#(define (gs:obstacle grob system other inset radius)
   (let ((box (and (gs:printed? other) (gs:box grob other system))))
     (if (not box) '()
         (let* ((w (- (cadr box) (car box))) (h (- (cadddr box) (caddr box)))
                (i (min inset (/ w 2) (/ h 2))))
           (list (vector (+ (car box) i) (- (cadr box) i) (+ (caddr box) i) (- (cadddr box) i) (+ i radius)))))))

%% A head, its accidental and dots, and the ledger lines under it.
#(define (gs:head-obstacles grob system gap unit head)
   (append
    (gs:obstacle grob system head (* 0.25 unit) gap)
    (gs:obstacle grob system (ly:grob-object head 'accidental-grob) 0 gap)
    (gs:dot-obstacle grob system head gap)
    (let ((position (gs:position head)) (box (and (gs:printed? head) (gs:box grob head system))))
      (if (or (not box) (< (abs position) 5.5) (eq? #t (ly:grob-property head 'no-ledgers #f))) '()
          (let* ((staff (gs:y grob (ly:grob-object head 'staff-symbol)))
                 (side (if (> position 0) 1 -1))
                 (y (lambda (p) (+ staff (* 0.5 unit side p))))
                 (ends (list (y 6) (y (* 2 (quotient (inexact->exact (truncate (abs position))) 2)))))
                 (beyond (* 0.25 (- (cadr box) (car box)))))
            (list (vector (- (car box) beyond) (+ (cadr box) beyond)
                          (apply min ends) (apply max ends) gap)))))))

%% A line begins after the dot: the space between a head and its dot is blocked too, and the gap after it is wider than
%% elsewhere, so that the dot does not read as the beginning of the line (our own judgement).
#(define (gs:dot-obstacle grob system head gap)
   (let* ((dot (ly:grob-object head 'dot))
          (box (and (gs:printed? dot) (gs:box grob dot system)))
          (own (and (gs:printed? head) (gs:box grob head system))))
     (if (not (and box own)) '()
         (let ((middle (/ (+ (caddr own) (cadddr own)) 2)))
           (list (vector (min (cadr own) (car box)) (cadr box)
                         (min middle (caddr box)) (max middle (cadddr box)) (* 1.5 gap)))))))

%% A beam slants: it is divided into short boxes, as thick as all its lines together.
#(define (gs:beam-obstacles grob system gap unit beam)
   (let* ((ys (ly:grob-property beam 'quantized-positions '(0 . 0)))
          (stems (filter (lambda (s) (not (interval-empty? (ly:grob-extent s system X)))) (gs:list beam 'stems))))
     (if (or (null? stems) (not (gs:printed? beam))) '()
         (let* ((x0 (ly:grob-relative-coordinate (car stems) system X))
                (x1 (ly:grob-relative-coordinate (gs:last stems) system X))
                (middle (gs:y grob (ly:grob-object (car stems) 'staff-symbol)))
                (lines (apply max 1 (map (lambda (s)
                                           (let ((b (ly:grob-property s 'beaming '(() . ())))
                                                 (count (lambda (l) (if (list? l) (length l) 0))))
                                             (max (count (car b)) (count (cdr b)))))
                                         stems)))
                (inner (* -1 (ly:grob-property (car stems) 'direction UP) (1- lines) 0.75))
                (n (max 1 (inexact->exact (ceiling (/ (- x1 x0) (* 1.0 unit)))))))
           (map (lambda (i)
                  (let* ((a (+ x0 (* (- x1 x0) (/ i n)))) (b (+ x0 (* (- x1 x0) (/ (1+ i) n))))
                         (at (lambda (x) (+ (car ys) (* (- (cdr ys) (car ys)) (if (> x1 x0) (/ (- x x0) (- x1 x0)) 0)))))
                         (heights (list (at a) (at b) (+ (at a) inner) (+ (at b) inner))))
                    (vector a b
                            (+ middle (* unit (- (apply min heights) 0.25)))
                            (+ middle (* unit (+ (apply max heights) 0.25))) (* 0.8 gap))))
                (iota n))))))

#(define (gs:column-obstacles grob system gap unit column)
   (let* ((stem (ly:grob-object column 'stem))
          (of-stem (lambda (name) (if (ly:grob? stem) (ly:grob-object stem name) #f))))
     (append
      (append-map (lambda (h) (gs:head-obstacles grob system gap unit h)) (gs:list column 'note-heads))
      (gs:obstacle grob system stem 0 gap)
      (gs:obstacle grob system (of-stem 'flag) 0 (* 0.7 gap))
      (gs:obstacle grob system (of-stem 'tremolo-flag) 0 (* 0.8 gap))
      (gs:obstacle grob system (ly:grob-object column 'rest) 0 gap))))

%% Signs in a column of their own.
#(define gs:other-obstacles '(GestureBracket GestureEdge GestureSecond Arpeggio Clef KeySignature KeyCancellation TimeSignature CueClef))

%% All obstacles on the staff of `grob`, between two places of its system.
#(define (gs:obstacles grob system x0 x1 gap unit)
   (let* ((staff (ly:grob-object grob 'staff-symbol))
          (here? (lambda (g) (eq? (ly:grob-object g 'staff-symbol) staff)))
          (columns (filter (lambda (c) (< (- x0 6) (ly:grob-relative-coordinate c system X) (+ x1 6)))
                           (gs:list system 'columns)))
          (elements (append-map (lambda (c) (gs:list c 'elements)) columns))
          (notes (filter (lambda (e)
                           (and (grob::has-interface e 'note-column-interface)
                                (or (any here? (gs:list e 'note-heads))
                                    (let ((rest (ly:grob-object e 'rest))) (and (ly:grob? rest) (here? rest))))))
                         elements))
          (beams (delete-duplicates
                  (filter-map (lambda (n)
                                (let* ((stem (ly:grob-object n 'stem))
                                       (beam (if (ly:grob? stem) (ly:grob-object stem 'beam) #f)))
                                  (and (ly:grob? beam) beam)))
                              notes)
                  eq?)))
     (append
      (append-map (lambda (n) (gs:column-obstacles grob system gap unit n)) notes)
      (append-map (lambda (b) (gs:beam-obstacles grob system gap unit b)) beams)
      (append-map (lambda (e) (if (and (memq (grob::name e) gs:other-obstacles) (here? e))
                                  (gs:obstacle grob system e 0 gap)
                                  '()))
                  elements))))

%% Whether a place is nearer to an obstacle than its radius plus `more`.
#(define (gs:touches? obstacle x y more)
   (let* ((dx (max 0 (- (vector-ref obstacle 0) x) (- x (vector-ref obstacle 1))))
          (dy (max 0 (- (vector-ref obstacle 2) y) (- y (vector-ref obstacle 3))))
          (r (+ more (vector-ref obstacle 4))))
     (< (+ (* dx dx) (* dy dy)) (* r r))))

%% Whether each place of the path is free, with `more` added to every radius.
#(define (gs:free-places path obstacles more)
   (let* ((xs (car path)) (ys (cadr path)) (n (vector-length xs)) (free (make-vector n #t)))
     (for-each
      (lambda (o)
        (let ((r (+ more (vector-ref o 4))))
          (let loop ((i (gs:index xs (- (vector-ref o 0) r))))
            (if (and (< i n) (<= (vector-ref xs i) (+ (vector-ref o 1) r)))
                (begin
                 (if (gs:touches? o (vector-ref xs i) (vector-ref ys i) more) (vector-set! free i #f))
                 (loop (1+ i)))))))
      obstacles)
     free))

%% From `s`, which is free, towards `dir`: the last place that keeps the regular gap, at most `most` away.
#(define (gs:edge-of-stretch path obstacles s dir most)
   (let* ((free? (lambda (s)
                   (let ((p (gs:along path s)))
                     (not (any (lambda (o) (gs:touches? o (car p) (cdr p) 0)) obstacles)))))
          (end (max 0 (min (gs:path-length path) (+ s (* dir most)))))
          (near (let loop ((t s))
                  (let ((next (+ t (* dir 0.05))))
                    (cond ((>= (* dir (- next end)) 0) end)
                          ((free? next) (loop next))
                          (else t))))))
     (if (or (= near end)) end
         (let bisect ((a near) (b (+ near (* dir 0.05))) (k 4))
           (if (= k 0) a
               (let ((m (/ (+ a b) 2))) (if (free? m) (bisect m b (1- k)) (bisect a m (1- k)))))))))

%% The free stretches (from . to) of a path. A line that swings by `swing` to either side stays clear with its whole
%% width; near its ends, where a wave returns to the middle, the gap is that of a plain line.
#(define (gs:free-stretches path obstacles swing shortest)
   (let* ((ss (caddr path)) (n (vector-length ss))
          (free (gs:free-places path obstacles swing))
          (runs (let loop ((i 0) (from #f) (found '()))
                  (cond ((= i n) (reverse (if from (cons (cons from (1- n)) found) found)))
                        ((vector-ref free i) (loop (1+ i) (or from i) found))
                        (from (loop (1+ i) #f (cons (cons from (1- i)) found)))
                        (else (loop (1+ i) #f found)))))
          (near (lambda (s)
                  (let ((p (gs:along path s)))
                    (filter (lambda (o) (gs:touches? o (car p) (cdr p) (+ swing 0.7))) obstacles))))
          (reach (+ 0.2 (* 1.3 swing)))
          (whole (gs:path-length path)))
     (filter
      (lambda (r) (>= (- (cdr r) (car r)) shortest))
      (map (lambda (r)
             (let ((a (vector-ref ss (car r))) (b (vector-ref ss (cdr r))))
               (cons (if (= a 0) a (gs:edge-of-stretch path (near a) a -1 reach))
                     (if (= b whole) b (gs:edge-of-stretch path (near b) b 1 reach)))))
           runs))))

%% The extents of the bar lines of a grob's staff.
#(define (gs:bar-extents grob system)
   (let ((staff (ly:grob-object grob 'staff-symbol)))
     (filter-map
      (lambda (e)
        (and (eq? 'BarLine (grob::name e)) (eq? staff (ly:grob-object e 'staff-symbol)) (gs:printed? e)
             (ly:grob-extent e system X)))
      (append-map (lambda (c) (gs:list c 'elements)) (gs:list system 'columns)))))

%% A line crosses bar lines, but does not end on one: an end that would lie on a bar line, or just beyond, stays before it.
#(define (gs:off-bars grob system path stretches unit)
   (let* ((bars (gs:bar-extents grob system))
          (gap (* 0.4 unit))
          (moved (lambda (s dir)
                   (let* ((x (car (gs:along path s)))
                          (hit (find (lambda (b) (< (- (car b) gap) x (+ (cdr b) (* 1.6 gap)))) bars))
                          (hit (if hit hit (find (lambda (b) (< (- (car b) (* 1.6 gap)) x (+ (cdr b) gap))) bars))))
                     (if (not hit) s
                         (let ((goal (if (< dir 0) (- (car hit) gap) (+ (cdr hit) gap))))
                           (let loop ((t s))
                             (if (or (<= t 0) (>= t (gs:path-length path))
                                     (<= 0 (* dir (- (car (gs:along path t)) goal))))
                                 t
                                 (loop (+ t (* dir 0.05)))))))))))
     (filter (lambda (r) (> (- (cdr r) (car r)) (* 0.4 unit)))
             (map (lambda (r) (cons (moved (car r) 1) (moved (cdr r) -1))) stretches))))
