%% The contour line: a new kind of spanner through the middles of the noteheads of its voice, from its first note to its
%% last. It takes its heights from the heads, so it follows transposition, clefs and staff sizes.

%% Heads in order of time, one for each moment (the first one written of a chord), separately for each piece of a line.
#(define (gs:points grob)
   (let ((heads (stable-sort (append-map (lambda (piece) (gs:list piece 'note-heads)) (gs:pieces grob))
                             (lambda (a b) (< (gs:when a) (gs:when b))))))
     (let loop ((rest heads) (found '()))
       (cond ((null? rest) (reverse found))
             ((and (pair? found) (= (gs:when (car rest)) (gs:when (car found)))) (loop (cdr rest) found))
             (else (loop (cdr rest) (cons (car rest) found)))))))

%% The places ((x . y) ...) that one piece passes through. At a line break its height is that of the moment of the
%% break; it continues after what is printed at the beginning of the next system.
#(define (gs:places grob system points straight unit)
   (let* ((staff (ly:grob-object grob 'staff-symbol))
          (middle (if (ly:grob? staff) (gs:y grob staff) 0))
          ;; By staff position, since heads may stand in another system.
          (leans (if (eq? 'wavy (gs:get (gs:details grob) 'style 'wavy)) '() (gs:leans points)))
          (y (lambda (h) (+ middle (* unit (+ (* 0.5 (gs:position h)) (or (assq-ref leans h) 0))))))
          (heights (map (lambda (h) (cons (gs:when h) (y h))) points))
          (by-time (if (> (length heights) 1) (gs:through heights straight) (lambda (t) (cdar heights))))
          (here (filter (lambda (h) (eq? (ly:grob-system h) system)) points))
          (x (lambda (h) (interval-center (ly:grob-robust-relative-extent h system X))))
          (left (ly:spanner-bound grob LEFT)) (right (ly:spanner-bound grob RIGHT))
          (from (if (gs:first-piece? grob) '()
                    (list (cons (+ (cdr (ly:grob-robust-relative-extent left system X)) (* 0.7 unit))
                                (by-time (gs:when left))))))
          (to (if (gs:last-piece? grob) '()
                  (list (cons (- (car (ly:grob-robust-relative-extent right system X)) (* 0.5 unit))
                              (by-time (gs:when right)))))))
     (gs:rising
      (gs:turned (append (if (null? from) '() (list (cons (gs:when left) (car from))))
                         (map (lambda (h) (cons (gs:when h) (cons (x h) (y h)))) here)
                         (if (null? to) '() (list (cons (gs:when right) (car to)))))
                 (gs:turns grob points) unit))))

%% Where a line leaves the straight way, ((moment . staff spaces above it) ...), from `turns`: shares of its time and
%% steps. Two turns at one time are a jump.
#(define (gs:turns grob points)
   (let ((t0 (gs:when (car points))) (t1 (gs:when (gs:last points))))
     (map (lambda (turn) (cons (+ t0 (* (car turn) (- t1 t0))) (* 0.5 (cdr turn))))
          (gs:get (gs:details grob) 'turns '()))))

%% Places ((moment . (x . y)) ...) with the turns between them.
#(define (gs:turned places turns unit)
   (if (or (null? turns) (null? places)) (map cdr places)
       (cons (cdar places)
             (append-map
              (lambda (one two)
                (let* ((t0 (car one)) (t1 (car two))
                       (inside (filter (lambda (turn) (and (< t0 (car turn)) (< (car turn) t1))) turns))
                       (at (lambda (turn)
                             (let ((u (/ (- (car turn) t0) (- t1 t0)))
                                   (along (lambda (f u) (+ (f (cdr one)) (* u (- (f (cdr two)) (f (cdr one))))))))
                               (cons (along car u) (+ (along cdr u) (* unit (cdr turn)))))))
                       (places (map at inside)))
                  ;; The second of a jump is a little later: a path must go on to the right.
                  (append (map (lambda (p before) (if (and before (<= (car p) (+ 0.02 (car before))))
                                                      (cons (+ (car p) (* 0.08 unit)) (cdr p))
                                                      p))
                               places (cons #f (if (null? places) '() (drop-right places 1))))
                          (list (cdr two)))))
              (drop-right places 1) (cdr places)))))

%% A straight line between two heads at one height could lie on a staff line and be invisible. If the pitch changes, as
%% from B to B flat, it leaves the higher one a little above its middle and reaches the lower one a little below; if
%% not, it runs a little above the staff line.
#(define (gs:leans points)
   (let ((lean (lambda (head other)
                 (let ((p (gs:position head)) (own (gs:alteration head)) (its (gs:alteration other)))
                   (cond ((or (eq? head other) (not (= p (gs:position other)))) 0)
                         ((> own its) 0.32) ((< own its) -0.32)
                         ((and (even? p) (< (abs p) 5)) 0.32)
                         (else 0)))))
         (both (lambda (a b) (cond ((= a 0) b) ((= a (- b)) 0) (else a)))))  ; on the way down or up: the middle
     (map (lambda (head before after) (cons head (both (lean head after) (lean head before))))
          points (cons (car points) (drop-right points 1)) (append (cdr points) (list (gs:last points))))))

#(define (gs:alteration head)
   (let* ((event (event-cause head)) (pitch (if event (ly:event-property event 'pitch #f) #f)))
     (+ (if (ly:pitch? pitch) (ly:pitch-alteration pitch) 0) (/ (gs:get (gs:details head) 'cents 0) 200))))

%% x must rise; of two places at the same x the first is kept.
#(define (gs:rising places)
   (reverse
    (fold (lambda (p found)
            (if (and (pair? found) (<= (car p) (+ 0.01 (caar found)))) found (cons p found)))
          '() places)))

%% How far a wave swings after `s` of a path: constant, or growing or fading over the whole line with all its pieces.
#(define (gs:swing grob details points path swing)
   (let ((growth (gs:get details 'growth 'steady)))
     (if (eq? growth 'steady) (lambda (s) swing)
         (let* ((t0 (gs:when (car points))) (t1 (gs:when (gs:last points)))
                (share (lambda (bound outer?) (if outer? #f (/ (- (gs:when bound) t0) (max 1/1000 (- t1 t0))))))
                (a (or (share (ly:spanner-bound grob LEFT) (gs:first-piece? grob)) 0))
                (b (or (share (ly:spanner-bound grob RIGHT) (gs:last-piece? grob)) 1))
                (whole (gs:path-length path)))
           (lambda (s)
             (let* ((u (+ a (* (- b a) (/ s whole)))) (u (if (eq? growth 'fading) (- 1 u) u)))
               (* swing (+ 0.3 (* 1.5 u)))))))))

%% --- the word of a line ------------------------------------------------------------------------------------------

%% The place of the word: on the first free stretch with room for it, `above` the line, clear of everything including
%% bar lines; each stretch is tried from its middle outwards. #f if it fits nowhere.
#(define (gs:find-word path stretches obstacles word above unit)
   (let ((width (gs:stencil-width word)))
     (any (lambda (r)
            (let ((spare (- (- (cdr r) (car r)) width (* 1.2 unit))))
              (and (>= spare 0)
                   (any (lambda (k)
                          (gs:word-place path (+ (/ (+ (car r) (cdr r)) 2) (* k spare 0.5)) width obstacles above unit))
                        '(0 -0.25 0.25 -0.5 0.5 -0.75 0.75 -1 1)))))
          stretches)))

#(define (gs:word-of-line grob text)
   (ly:stencil-aligned-to (grob-interpret-markup grob (markup #:italic #:fontsize -2 text)) X CENTER))

%% Bar lines of a staff as obstacles: no word is printed across one, at any height.
#(define (gs:bar-obstacles grob system unit)
   (map (lambda (x) (vector (car x) (cdr x) -1000 1000 (* 0.4 unit))) (gs:bar-extents grob system)))

%% The limits of register bands on its staff, which would strike a word through.
#(define (gs:limit-obstacles grob system unit)
   (let* ((staff (ly:grob-object grob 'staff-symbol))
          (here? (lambda (g) (and (eq? 'GestureBand (grob::name g)) (eq? staff (ly:grob-object g 'staff-symbol)))))
          (line (lambda (height)
                  (let ((y (+ (gs:y grob staff) (* unit height)))) (vector -1000 1000 y y (* 0.3 unit))))))
     (append-map (lambda (heights) (list (line (car heights)) (line (cdr heights))))
                 (map gs:band-heights (filter here? (gs:list system 'all-elements))))))

%% Whether an earlier piece of a broken line has the word already.
#(define (gs:word-before? grob)
   (any gs:contour-word (take-while (lambda (piece) (not (eq? piece grob))) (gs:pieces grob))))

%% A word `width` wide with its middle at `s`: (place angle rise), or #f if it would touch something or the line bends
%% too much there.
#(define (gs:word-place path s width obstacles above unit)
   (let* ((p (gs:along path s)) (d (gs:direction path s (/ width 2)))
          (off (lambda (t)
                 (let ((q (gs:along path (+ s (* t (/ width 2))))))
                   (- (* (car d) (- (cdr q) (cdr p))) (* (cdr d) (- (car q) (car p)))))))
          (offs (map off '(-1.1 -0.8 -0.5 -0.25 0 0.25 0.5 0.8 1.1)))
          (rise (+ (apply max offs) above))
          (clear? (lambda (u v)
                    (let ((x (- (+ (car p) (* u (car d))) (* v (cdr d)))) (y (+ (cdr p) (* u (cdr d)) (* v (car d)))))
                      (not (any (lambda (o) (gs:touches? o x y 0)) obstacles)))))
          (us (map (lambda (k) (* k (/ width 2))) '(-1 -0.67 -0.33 0 0.33 0.67 1)))
          (vs (map (lambda (k) (+ rise (* k unit))) '(0 0.5 1.0))))
     (and (< (- (apply max offs) (apply min offs)) (* 0.8 unit))
          (every (lambda (u) (every (lambda (v) (clear? u v)) vs)) us)
          (list p (/ (* 180 (atan (cdr d) (car d))) PI) rise))))

%% --- the stencil --------------------------------------------------------------------------------------------------

%% What a piece of a line consists of, or #f if it has no length: its path, its free stretches, the obstacles, and how
%% far a wave swings.
#(define (gs:contour-parts grob)
   (let* ((details (gs:details grob))
          (system (ly:grob-system grob))
          (points (gs:points grob))
          (unit (gs:staff-space grob))
          (style (gs:get details 'style 'wavy))
          (straight (eq? 'plain style))
          (places (if (null? points) '() (gs:places grob system points straight unit))))
     (if (< (length places) 2) #f
         (let* ((path (gs:path places straight))
                (wide (* unit (gs:get details 'amplitude 0.3)))
                (swing (if (eq? 'wavy style) (gs:swing grob details points path wide) (lambda (s) 0)))
                (widest (max (swing 0) (swing (gs:path-length path))))
                (xs (car path))
                (obstacles (if (gs:get details 'uncut #f) '()
                               (gs:obstacles grob system (vector-ref xs 0) (vector-ref xs (1- (vector-length xs)))
                                             (* unit (gs:get details 'gap 0.36)) unit)))
                (stretches (gs:free-stretches path obstacles widest (* 0.4 unit)))
                (stretches (if (null? obstacles) stretches (gs:off-bars grob system path stretches unit))))
           (list path stretches obstacles swing widest)))))

%% The place of a line's word on one piece of it, or #f.
#(define (gs:contour-word grob)
   (let* ((text (gs:get (gs:details grob) 'word #f)) (unit (gs:staff-space grob))
          (system (ly:grob-system grob))
          (parts (and text (gs:contour-parts grob)))
          (place (lambda (obstacles higher)
                   (gs:find-word (car parts) (cadr parts) obstacles (gs:word-of-line grob text)
                                 (+ (fifth parts) (* (+ 0.75 higher) unit)) unit))))
     (and parts
          (let* ((obstacles (append (caddr parts) (gs:bar-obstacles grob system unit)))
                 (limits (gs:limit-obstacles grob system unit)))
            ;; A little higher rather than crossed by the line.
            (or (any (lambda (higher) (place (append obstacles limits) higher))
                     (if (null? limits) '(0) '(0 0.6 1.2)))
                (place obstacles 0))))))

#(define (gs:contour-stencil grob)
   (let ((parts (gs:contour-parts grob)))
     (if (not parts) '()
         (ly:stencil-translate-axis
          (gs:draw-contour grob (gs:details grob) parts (gs:staff-space grob))
          (- (ly:grob-relative-coordinate grob (ly:grob-system grob) X)) X))))

#(define (gs:draw-contour grob details parts unit)
   (let* ((style (gs:get details 'style 'wavy))
          (path (car parts)) (stretches (cadr parts)) (swing (cadddr parts))
          (arrow? (and (gs:get details 'arrow #f) (gs:last-piece? grob) (pair? stretches)))
          (size (* 1.1 unit))
          (shaft (lambda (r)
                   (if (and arrow? (eq? r (gs:last stretches)))
                       (cons (car r) (max (+ (car r) (* 0.2 unit)) (- (cdr r) (* 0.65 size))))
                       r)))
          (drawn (map shaft stretches))
          (wavelength (gs:even-wavelength (map (lambda (r) (- (cdr r) (car r))) drawn)
                                          (* unit (gs:get details 'wavelength 1.0))))
          (thick (* unit (gs:get details 'thickness 0.16)))
          (word (and (not (gs:word-before? grob)) (gs:contour-word grob))))
     (apply ly:stencil-add empty-stencil
            (append
             (map (lambda (r) (gs:draw-stretch path (car r) (cdr r) style thick unit swing wavelength)) drawn)
             (if arrow? (list (gs:arrow-head path (cdr (gs:last stretches)) size)) '())
             (if word
                 (let ((text (gs:word-of-line grob (gs:get details 'word ""))))
                   (list (ly:stencil-translate
                          (ly:stencil-rotate-absolute (ly:stencil-translate-axis text (caddr word) Y) (cadr word) 0 0)
                          (car word))))
                 '())))))

%% Before line breaking only the heights of the heads are known.
#(define (gs:contour-pure-height grob start end)
   (let ((heights (map (lambda (h) (/ (gs:position h) 2)) (gs:list grob 'note-heads))))
     (if (null? heights) '(+inf.0 . -inf.0)
         (cons (- (apply min heights) 0.4) (+ (apply max heights) 0.4)))))

#(define gs:contour-height
   (ly:make-unpure-pure-container ly:grob::stencil-height gs:contour-pure-height))

%% --- room between two points ----------------------------------------------------------------------------------------

%% The distance that two columns of points need for a visible piece of line between them: what is right of the first,
%% what is left of the second, a gap at each, and the line itself. A steep line is long enough anyway.
#(define (gs:room-length grob)
   (+ (gs:room-before grob) (gs:room-after grob)))

#(define (gs:room-before grob)
   (let* ((heads (gs:get (ly:grob-property grob 'details) 'from '()))
          (column (ly:spanner-bound grob LEFT))
          (right (append heads (gs:dots heads) (gs:brackets heads) (gs:seconds heads column)))
          (reach (gs:reach right column)))
     (if reach (cdr reach) 0.6)))

%% The second notes of trills, beside the heads of a column.
#(define (gs:seconds heads column)
   (filter (lambda (g)
             (and (eq? 'GestureSecond (grob::name g))
                  (any (lambda (h) (memq h heads)) (gs:list g 'note-heads))))
           (gs:list column 'elements)))

#(define (gs:room-after grob)
   (let* ((details (ly:grob-property grob 'details))
          (heads (gs:get details 'to '())) (from (gs:get details 'from '()))
          (unit (gs:staff-space (car from)))
          (signs (append heads (gs:accidentals heads) (gs:brackets heads)))
          (reach (gs:reach signs (ly:spanner-bound grob RIGHT))))
     (+ (* unit (gs:room-seen from heads)) (if reach (- (car reach)) 0) (gs:room-for-clef grob unit))))

%% A clef change right before the point is in the way of the line.
#(define (gs:room-for-clef grob unit)
   (let* ((column (ly:item-get-column (ly:spanner-bound grob RIGHT)))
          (columns (ly:grob-object (ly:grob-parent column X) 'columns))
          (rank (car (ly:grob-spanned-column-rank-interval column)))
          (before (if (and (ly:grob-array? columns) (> rank 0)) (ly:grob-array-ref columns (1- rank)) #f))
          (clefs (if before (filter (gs:grob-named? 'Clef) (gs:list before 'elements)) '()))
          (reach (if before (gs:reach clefs before) #f)))
     (if reach (+ (interval-length reach) (* 1.2 unit)) 0)))

%% The minimum between two points, with gaps. After the brackets of a head where a line stops it is white space.
#(define (gs:room-seen from to)
   (let ((climb (if (null? to) 0 (* 0.5 (abs (- (gs:position (car to)) (gs:position (car from)))))))
         (ledger (if (any (lambda (h) (> (abs (gs:position h)) 5.5)) (append to from)) 0.5 0)))
     (if (pair? (gs:brackets from)) 1.8
         (+ (max 2.0 (- 2.4 (* 0.1 climb))) ledger 0.8))))

%% After a line break the length is counted from the beginning of the system, where there is a clef as well.
#(define (gs:room-after-break grob)
   (+ (gs:room-after grob) (* 3.8 (gs:staff-space (car (gs:get (ly:grob-property grob 'details) 'from '()))))))

#(define (gs:brackets heads)
   (filter-map (lambda (h) (gs:get (ly:grob-property h (quote details) (quote ())) (quote gs-bracket) #f)) heads))

%% \gsLine #'((style . wavy)) starts a line at this note. style: wavy | plain | broken | dotted; (growth . growing) or
%% (growth . fading) changes the swing of a wave; (arrow . #t) ends it with an arrow head; (word . "gliss.") is printed
%% on the line where there is room. Plain lines go straight from point to point, all others in one smooth curve whose
%% highest and lowest points are those given. Only the contour is wavy (Stone: one sign, one meaning).
%% (uncut . #t) draws through everything, for measurements.
gsLine =
#(define-event-function (details) (list?) (gs:start 'contour details))

%% \gsLineEnd: the line ends at this note's head. The note may start another.
gsLineEnd = #(gs:stop 'contour)
