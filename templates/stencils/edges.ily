%% Edges of a note and the bend: signs beside the head, each an item that takes space. The gap is the same from the head
%% and its accidentals on the left, and from the head, its dots, its flag and the second note of its trill on the right.

%% kind: (side heads-of-a-chord width path), the path from (0, 0) at the head outwards, in staff spaces.
#(define (gs:edge-shape kind depth)
   (case kind
     ((scoop) (list LEFT 'low 1.4 '(moveto 0 0 curveto -0.75 -0.02 -1.2 -0.6 -1.4 -1.6)))
     ((plop) (list LEFT 'high 1.4 '(moveto 0 0 curveto -0.75 0.02 -1.2 0.6 -1.4 1.6)))
     ((rip) (list LEFT 'low 1.7 '(moveto 0 0 lineto -1.7 -3.0)))
     ((lift) (list LEFT 'low 2.2 '(moveto 0 0 lineto -2.2 -1.5)))
     ((smear) (list LEFT 'low 2.6 '(moveto 0 0 curveto -1.3 0.1 -1.2 -1.6 -2.6 -1.6)))
     ((short-doit) (list RIGHT 'high 1.2 '(moveto 0 0 curveto 0.6 0.02 1.0 0.4 1.2 1.1)))
     ((long-doit) (list RIGHT 'high 3.4 '(moveto 0 0 curveto 1.6 0.04 2.8 1.5 3.4 4.0)))
     ((doit-at-once) (list RIGHT 'high 2.0 '(moveto 0 0 lineto 2.0 2.4)))
     ((short-fall) (list RIGHT 'low 1.2 '(moveto 0 0 curveto 0.6 -0.02 1.0 -0.4 1.2 -1.1)))
     ((long-fall) (list RIGHT 'low 3.4 '(moveto 0 0 curveto 1.6 -0.04 2.8 -1.5 3.4 -4.0)))
     ((fall-at-once) (list RIGHT 'low 2.0 '(moveto 0 0 lineto 2.0 -2.4)))
     ((spill) (list RIGHT 'low 2.4 '(moveto 0 0 lineto 0.5 -1.0 lineto 0.9 -0.7 lineto 1.3 -1.7 lineto 1.7 -1.4
                                     lineto 2.4 -3.0)))
     ((flip) (list RIGHT 'high 2.0 '(moveto 0 0 curveto 0.2 1.4 0.8 1.9 1.2 1.6 curveto 1.6 1.3 1.8 0.8 2.0 0.2)))
     ((jazz-turn) (list RIGHT 'high 2.2 '(moveto 0 0 curveto 0.1 0.9 0.8 0.9 1.1 0.2 curveto 1.4 -0.5 2.1 -0.5 2.2 0.4)))
     ((doit) (list RIGHT 'high 1.9 '(moveto 0 0 curveto 1.0 0.02 1.6 0.8 1.9 2.1)))
     ((fall) (list RIGHT 'low 1.9 '(moveto 0 0 curveto 1.0 -0.02 1.6 -0.8 1.9 -2.1)))
     (else (list RIGHT (if (< depth 0) 'low 'high) 2.4 `(moveto 0 0 lineto 1.2 ,(* 0.5 depth) lineto 2.4 0)))))

#(define (gs:scaled path unit) (map (lambda (x) (if (number? x) (* unit x) x)) path))

#(define (gs:edge-heads grob) (sort (gs:list grob 'note-heads) (lambda (a b) (< (gs:position a) (gs:position b)))))
#(define (gs:edge-head grob which) ((if (eq? which 'low) car gs:last) (gs:edge-heads grob)))

#(define (gs:edge-stencil grob)
   (let* ((details (gs:details grob))
          (shape (gs:edge-shape (gs:get details 'edge 'bend) (gs:get details 'depth -2)))
          (unit (gs:staff-space grob)))
     (ly:stencil-translate-axis
      (make-path-stencil (gs:scaled (cadddr shape) unit) (* 0.16 unit) 1 1 #f)
      (* 0.5 unit (gs:position (gs:edge-head grob (cadr shape)))) Y)))

#(define (gs:edge-offset grob)
   (let* ((details (gs:details grob))
          (shape (gs:edge-shape (gs:get details 'edge 'bend) (gs:get details 'depth -2)))
          (heads (gs:edge-heads grob))
          (unit (gs:staff-space grob))
          (parent (ly:grob-parent grob X))
          (ledger (if (> (abs (gs:position (gs:edge-head grob (cadr shape)))) 5.5) 0.25 0))
          (gap (* unit (+ 0.4 ledger))))
     (if (= LEFT (car shape))
         (- (car (gs:reach (append heads (gs:accidentals heads)) parent)) gap)
         (+ (cdr (gs:reach (append heads (gs:dots heads) (gs:flag-beside (car heads) shape)
                                   (gs:seconds heads (ly:item-get-column grob))
                                   (gs:bend-before grob heads))
                           parent))
            gap))))

%% The bend of a note that also has an edge off it: first it bends.
#(define (gs:bend-before grob heads)
   (let ((bend? (lambda (g) (eq? 'bend (gs:get (gs:details g) 'edge 'bend)))))
     (if (bend? grob) '()
         (filter (lambda (g)
                   (and (eq? 'GestureEdge (grob::name g)) (bend? g)
                        (any (lambda (h) (memq h heads)) (gs:list g 'note-heads))))
                 (gs:list (ly:item-get-column grob) 'elements)))))

%% The flag of a note, if the sign would collide with it.
#(define (gs:flag-beside head shape)
   (let* ((stem (ly:grob-object head 'stem))
          (flag (if (ly:grob? stem) (ly:grob-object stem 'flag) #f))
          (goes (if (eq? 'high (cadr shape)) UP DOWN)))
     (if (and (ly:grob? flag) (eq? goes (ly:grob-property stem 'direction))) (list flag) '())))

%% Into the note: \gsScoop from below, \gsPlop from above (curved), \gsRip from far below (steep), \gsLift by steps
%% (slanting), \gsSmear blurred (an S). Off the note: \gsDoit upwards, \gsFall downwards, each short, long or at once
%% (straight); \gsSpill through the harmonics (jagged), \gsFlip up and over, \gsJazzTurn about the note. The forms
%% are those of SMuFL: brassScoop, brassPlop, brassLift, brassSmear, brassDoit, brassFall, brassFlip, brassJazzTurn.
gsScoop = #(gs:sign 'edge '((edge . scoop)))
gsPlop = #(gs:sign 'edge '((edge . plop)))
gsRip = #(gs:sign 'edge '((edge . rip)))
gsDoit = #(gs:sign 'edge '((edge . doit)))
gsFall = #(gs:sign 'edge '((edge . fall)))
gsLift = #(gs:sign 'edge '((edge . lift)))
gsSmear = #(gs:sign 'edge '((edge . smear)))
gsShortDoit = #(gs:sign 'edge '((edge . short-doit)))
gsLongDoit = #(gs:sign 'edge '((edge . long-doit)))
gsDoitAtOnce = #(gs:sign 'edge '((edge . doit-at-once)))
gsShortFall = #(gs:sign 'edge '((edge . short-fall)))
gsLongFall = #(gs:sign 'edge '((edge . long-fall)))
gsFallAtOnce = #(gs:sign 'edge '((edge . fall-at-once)))
gsSpill = #(gs:sign 'edge '((edge . spill)))
gsFlip = #(gs:sign 'edge '((edge . flip)))
gsJazzTurn = #(gs:sign 'edge '((edge . jazz-turn)))

%% \gsBend #-2: a small V after the note, its depth in half staff spaces: away from the pitch and back. An arc would
%% read as a tie.
gsBend =
#(define-event-function (depth) (number?) (gs:sign 'edge `((edge . bend) (depth . ,depth))))

%% \gsSecond d'': the second note of a trill wider than a tone, or of one without a sign: a small head with its
%% accidental, in parentheses after the note, without a stem.
gsSecond =
#(define-event-function (pitch) (ly:pitch?)
   (let ((event (gs:sign 'second '())))
     (set! (ly:music-property event 'gs-high) pitch)
     event))

%% \gsSecondPlain d'': the same without a natural, where there is no doubt.
gsSecondPlain =
#(define-event-function (pitch) (ly:pitch?)
   (let ((event (gs:sign 'second '((plain . #t)))))
     (set! (ly:music-property event 'gs-high) pitch)
     event))

#(define (gs:second-stencil grob)
   (let* ((pitch (ly:event-property (event-cause grob) 'gs-high))
          (unit (gs:staff-space grob))
          (position (+ (gs:get (ly:grob-property grob 'details) 'middle-c -6) (ly:pitch-steps pitch)))
          (glyph (lambda (size name)
                   (grob-interpret-markup grob (make-fontsize-markup size (make-musicglyph-markup name)))))
          (beside (lambda (left right gap) (ly:stencil-combine-at-edge left X RIGHT right gap)))
          (head (glyph -3 "noteheads.s2"))
          (sign (if (gs:get (ly:event-property (event-cause grob) 'gs-details '()) 'plain #f) (glyph -3 "accidentals.leftparen")
                    (ly:stencil-aligned-to (gs:trill-accidental grob pitch) X LEFT)))
          (open (if (gs:get (ly:event-property (event-cause grob) 'gs-details '()) 'plain #f) sign
                    (beside (glyph -3 "accidentals.leftparen") sign (* 0.1 unit))))
          (outer (if (< position 0) -1 1))
          (ledgers (map (lambda (n) (* outer (+ 6 (* 2 n)))) (iota (max 0 (quotient (- (abs position) 4) 2)))))
          (before (* (if (null? ledgers) 0.15 0.4) unit))  ; a ledger line touches neither sign nor parenthesis
          (whole (beside (beside open head before) (glyph -3 "accidentals.rightparen")
                         (* (if (null? ledgers) 0.1 0.4) unit)))
          (x (+ (cdr (ly:stencil-extent open X)) before))
          (wide (interval-length (ly:stencil-extent head X)))
          (all (apply ly:stencil-add (ly:stencil-translate-axis whole (* 0.5 unit position) Y)
                      (map (lambda (p)
                             (make-line-stencil (* 0.13 unit) (- x (* 0.25 unit)) (* 0.5 unit p)
                                                (+ x wide (* 0.25 unit)) (* 0.5 unit p)))
                           ledgers))))
     (ly:stencil-aligned-to all X LEFT)))

%% After the dots and past the ledger lines of its note.
#(define (gs:second-offset grob)
   (let ((heads (gs:list grob 'note-heads)) (unit (gs:staff-space grob)))
     (+ (cdr (gs:reach (append heads (gs:dots heads) (gs:flag-beside (car heads) '(right high))) (ly:grob-parent grob X)))
        (* (if (any (lambda (h) (> (abs (gs:position h)) 5)) heads) 0.8 0.5) unit))))
