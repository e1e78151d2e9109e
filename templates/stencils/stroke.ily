%% Strokes along a path: plain, wavy, broken, dotted; arrow heads.

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

#(define (gs:plain-commands path s0 s1)
   (let* ((n (max 1 (inexact->exact (ceiling (/ (- s1 s0) 0.7))))) (step (/ (- s1 s0) n)))
     (gs:nodes->commands
      (map (lambda (i)
             (let ((s (+ s0 (* i step)))) (cons (gs:along path s) (gs:direction path s 0.05))))
           (iota (1+ n)))
      step)))

%% The number of half waves of about that length in a stretch.
#(define (gs:half-waves length wavelength)
   (max 2 (inexact->exact (round (/ (* 2 length) wavelength)))))

%% The wavelength near `wanted` at which whole half waves in all stretches are most nearly equal.
#(define (gs:even-wavelength lengths wanted)
   (let ((worst (lambda (w)
                  (apply max (map (lambda (l) (abs (log (/ (* 2 l) (gs:half-waves l w) w)))) lengths)))))
     (if (null? lengths) wanted
         (fold (lambda (k best) (let ((w (* wanted k))) (if (< (worst w) (- (worst best) 0.005)) w best)))
               wanted '(0.97 1.03 0.94 1.06 0.91 1.09 0.88 1.12)))))

%% A wave along the path with a whole number of half waves, so that it begins and ends on the path. Four nodes a wave.
#(define (gs:wave-commands path s0 s1 amplitude wavelength)
   (let* ((length (- s1 s0))
          (halves (gs:half-waves length wavelength))
          (own (/ (* 2 length) halves))
          (n (* 2 halves)) (step (/ length n)))
     (gs:nodes->commands
      (map (lambda (i)
             (let* ((s (+ s0 (* i step))) (p (gs:along path s)) (d (gs:direction path s (/ own 2)))
                    (phase (* i (/ PI 2))) (a (amplitude s))
                    (out (* a (sin phase)))
                    (slope (* a (cos phase) (/ (* 2 PI) own))))
               (cons (cons (- (car p) (* out (cdr d))) (+ (cdr p) (* out (car d))))
                     (cons (- (car d) (* slope (cdr d))) (+ (cdr d) (* slope (car d)))))))
           (iota (1+ n)))
      step)))

%% Dashes of length `on`: whole ones at both ends, with gaps stretched to fit.
#(define (gs:dash-commands path s0 s1 on off)
   (let* ((length (- s1 s0))
          (count (max 2 (1+ (inexact->exact (round (/ (- length on) (+ on off)))))))
          (pitch (/ (- length on) (1- count))))
     (append-map
      (lambda (i) (let ((from (+ s0 (* i pitch)))) (gs:plain-commands path from (+ from on))))
      (iota count))))

%% One free stretch of a line, in the style of its details. `amplitude`: procedure of arc length, for waves.
#(define (gs:draw-stretch path s0 s1 style thick unit amplitude wavelength)
   (let* ((length (- s1 s0))
          (stroke (lambda (commands t) (make-path-stencil commands t 1 1 #f)))
          (on (min (* 0.8 unit) (/ length 2.6))))
     (case style
       ((broken) (stroke (gs:dash-commands path s0 s1 on (* unit 0.55)) thick))
       ((dotted) (stroke (gs:dash-commands path s0 s1 (* unit 0.01) (* unit 0.6)) (* 1.7 thick)))
       ((wavy) (stroke (gs:wave-commands path s0 s1 amplitude wavelength) thick))
       (else (stroke (gs:plain-commands path s0 s1) thick)))))

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
