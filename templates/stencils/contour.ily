%% The contour line: a spanner of our own that runs through the noteheads of its voice, from the note it starts at
%% to the note it ends at. It takes its heights from the heads, so transposition, clefs and staff sizes move it.

#(define (gs:when grob)
   (let* ((column (if (grob::has-interface grob 'paper-column-interface) grob (ly:item-get-column grob)))
          (when (ly:grob-property column 'when #f)))
     (if (ly:moment? when)
         ;; A grace note counts as a little before its main note: enough to keep the order.
         (+ (ly:moment-main when) (* 1/1000 (ly:moment-grace when)))
         0)))

#(define (gs:list grob name)
   (let ((array (ly:grob-object grob name)))
     (if (ly:grob-array? array) (ly:grob-array->list array) '())))

#(define (gs:pieces grob)
   (let* ((whole (if (ly:grob? (ly:grob-original grob)) (ly:grob-original grob) grob))
          (pieces (ly:spanner-broken-into whole)))
     (if (null? pieces) (list grob) pieces)))

%% What was written with the event, then what the grob has.
#(define (gs:details grob)
   (let ((event (event-cause grob)))
     (append (if (ly:stream-event? event) (ly:event-property event 'gs-details '()) '())
             (ly:grob-property grob 'details '()))))

%% Heads in order of time, one for each moment (the top one of a chord). Each piece of a broken line keeps its own.
#(define (gs:points grob)
   (let* ((heads (sort (append-map (lambda (piece) (gs:list piece 'note-heads)) (gs:pieces grob))
                       (lambda (a b)
                         (let ((ta (gs:when a)) (tb (gs:when b)))
                           (or (< ta tb)
                               (and (= ta tb) (> (ly:grob-property a 'staff-position 0)
                                                 (ly:grob-property b 'staff-position 0)))))))))
     (let loop ((rest heads) (found '()))
       (cond ((null? rest) (reverse found))
             ((and (pair? found) (= (gs:when (car rest)) (gs:when (car found)))) (loop (cdr rest) found))
             (else (loop (cdr rest) (cons (car rest) found)))))))

#(define (gs:y grob other)          ; height of `other` over the spanner's own origin
   (let ((common (ly:grob-common-refpoint grob other Y)))
     (- (ly:grob-relative-coordinate other common Y) (ly:grob-relative-coordinate grob common Y))))

#(define (gs:box grob other system px py)
   (let* ((x (ly:grob-robust-relative-extent other system X))
          (common (ly:grob-common-refpoint grob other Y))
          (y (ly:grob-extent other common Y))
          (o (ly:grob-relative-coordinate grob common Y)))
     (if (or (interval-empty? x) (interval-empty? y)) #f
         (list (- (car x) px) (+ (cdr x) px) (- (car y) o py) (+ (- (cdr y) o) py)))))

#(define (gs:printed? grob)
   (and (ly:grob? grob)
        (not (eq? #t (ly:grob-property grob 'transparent #f)))
        (ly:stencil? (ly:grob-property grob 'stencil #f))
        (not (ly:stencil-empty? (ly:grob-property grob 'stencil)))))

%% Boxes a line must keep out of: heads, accidentals, dots, stems and flags of every note column near it.
#(define (gs:obstacles grob system unit swing)
   (let* ((gap (* unit 0.32))
          (staff (ly:grob-object grob 'staff-symbol))
          (columns (filter (lambda (c) (grob::has-interface c 'note-column-interface))
                           (append-map (lambda (c) (gs:list c 'elements)) (gs:list system 'columns))))
          (mine (filter (lambda (c)
                          (any (lambda (h) (eq? (ly:grob-object h 'staff-symbol) staff)) (gs:list c 'note-heads)))
                        columns)))
     (filter
      identity
      (append-map
       (lambda (column)
         (append
          (append-map
           (lambda (head)
             (let* ((position (ly:grob-property head 'staff-position 0))
                    (ledgered (and (> (abs position) 5) (not (eq? #t (ly:grob-property head 'no-ledgers #f))))))
               (append
                (if (gs:printed? head)
                    (list (gs:box grob head system (+ gap (if ledgered (* unit 0.3) 0)) (+ (* 0.6 gap) (* 0.5 swing)))) '())
                (filter-map
                 (lambda (name)
                   (let ((other (ly:grob-object head name)))
                     (and (gs:printed? other) (gs:box grob other system (* 0.8 gap) (* 0.6 gap)))))
                 '(accidental-grob dot)))))
           (gs:list column 'note-heads))
          (filter-map
           (lambda (name)
             (let ((other (ly:grob-object column name)))
               (and (gs:printed? other) (gs:box grob other system (* 0.5 gap) 0))))
           '(stem))
          (let ((stem (ly:grob-object column 'stem)))
            (if (ly:grob? stem)
                (let ((flag (ly:grob-object stem 'flag)))
                  (if (gs:printed? flag) (list (gs:box grob flag system (* 0.7 gap) (* 0.5 gap))) '()))
                '()))))
       mine))))

%% The places ((x . y) ...) that one piece passes through; a point may be given for a break at either side.
#(define (gs:places grob system points straight unit)
   (let* ((staff (ly:grob-object grob 'staff-symbol))
          (middle (if (ly:grob? staff) (gs:y grob staff) 0))
          ;; By staff position, since heads may stand in another system.
          (y (lambda (h) (+ middle (* 0.5 unit (ly:grob-property h 'staff-position 0)))))
          (heights (map (lambda (h) (cons (gs:when h) (y h))) points))
          (by-time (if (> (length heights) 1) (gs:through heights straight) (lambda (t) (cdar heights))))
          (here (filter (lambda (h) (eq? (ly:grob-system h) system)) points))
          (places (map (lambda (h) (cons (interval-center (ly:grob-robust-relative-extent h system X)) (y h)))
                       here))
          (left (ly:spanner-bound grob LEFT)) (right (ly:spanner-bound grob RIGHT))
          (pieces (gs:pieces grob))
          (from (and (not (eq? grob (first pieces)))
                     (cons (+ (cdr (ly:grob-robust-relative-extent left system X)) (* 0.6 unit))
                           (by-time (gs:when left)))))
          (to (and (not (eq? grob (last pieces)))
                   (cons (- (car (ly:grob-robust-relative-extent right system X)) (* 0.4 unit))
                         (by-time (gs:when right)))))
          (all (append (if from (list from) '()) places (if to (list to) '()))))
     ;; x must rise; of two that do not, the first stands.
     (let loop ((rest all) (found '()))
       (cond ((null? rest) (reverse found))
             ((and (pair? found) (<= (caar rest) (+ 0.01 (caar found)))) (loop (cdr rest) found))
             (else (loop (cdr rest) (cons (car rest) found)))))))

%% The word of a line, along its longest free stretch, where it fits.
#(define (gs:line-word grob path stretches text unit)
   (let* ((longest (fold (lambda (r best) (if (or (not best) (> (- (cdr r) (car r)) (- (cdr best) (car best)))) r best))
                         #f stretches))
          (word (grob-interpret-markup grob (markup #:italic #:fontsize -2 text)))
          (width (interval-length (ly:stencil-extent word X))))
     (if (or (not longest) (> (+ width (* 1.4 unit)) (- (cdr longest) (car longest))))
         empty-stencil
         (let* ((s (/ (+ (car longest) (cdr longest)) 2)) (p (gs:along path s)) (d (gs:direction path s (/ width 2))))
           (ly:stencil-translate
            (ly:stencil-rotate-absolute
             (ly:stencil-translate-axis (ly:stencil-aligned-to (ly:stencil-aligned-to word X CENTER) Y DOWN) (* 0.35 unit) Y)
             (/ (* 180 (atan (cdr d) (car d))) PI) 0 0)
            p)))))

#(define (gs:contour-stencil grob)
   (let* ((details (gs:details grob))
          (system (ly:grob-system grob))
          (points (gs:points grob))
          (staff (ly:grob-object grob 'staff-symbol))
          (unit (if (ly:grob? staff) (ly:staff-symbol-staff-space staff) 1))
          (straight (memq (gs:get details 'style 'wavy) '(plain)))
          (places (if (null? points) '() (gs:places grob system points straight unit))))
     (if (< (length places) 2) '()
         (let* ((path (gs:path (gs:through places straight) (caar places) (car (last places))))
                (swing (if (eq? 'wavy (gs:get details 'style 'wavy)) (* unit (gs:get details 'amplitude 0.32)) 0))
                (boxes (if (gs:get details 'uncut #f) '() (gs:obstacles grob system unit swing)))
                (stretches (gs:free-stretches path boxes (* 0.45 unit)))
                (arrow (and (gs:get details 'arrow #f) (eq? grob (last (gs:pieces grob))) (pair? stretches)))
                (tip (and arrow (cdr (last stretches))))
                (size (* 1.0 unit))
                (drawn (map (lambda (r)
                              (gs:draw-stretch path (car r)
                                               (if (and arrow (= (cdr r) tip)) (max (+ (car r) 0.2) (- (cdr r) (* 0.6 size))) (cdr r))
                                               details unit))
                            stretches))
                (word (gs:get details 'word #f))
                (all (apply ly:stencil-add
                            (append drawn
                                    (if arrow (list (gs:arrow-head path tip size)) '())
                                    (if word (list (gs:line-word grob path stretches word unit)) '())))))
           (ly:stencil-translate-axis all (- (ly:grob-relative-coordinate grob system X)) X)))))

%% Before the lines are broken only the heights of the heads are known.
#(define (gs:contour-pure-height grob start end)
   (let ((positions (map (lambda (h) (/ (ly:grob-property h 'staff-position 0) 2)) (gs:list grob 'note-heads))))
     (if (null? positions) '(+inf.0 . -inf.0)
         (cons (- (apply min positions) 0.4) (+ (apply max positions) 0.4)))))

#(define gs:contour-height
   (ly:make-unpure-pure-container ly:grob::stencil-height gs:contour-pure-height))

%% Starts a line at this note. style: wavy | plain | broken | dotted; growth: growing | fading; arrow . #t;
%% word . "gliss." sits on the line where there is room; uncut . #t draws through everything, to measure by.
gsLine =
#(define-event-function (details) (list?)
   (make-music 'GestureSpanEvent 'span-direction START 'gs-kind 'contour 'gs-details details))

%% The line ends at this note's head; the note may start another.
gsLineEnd =
#(make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind 'contour)
