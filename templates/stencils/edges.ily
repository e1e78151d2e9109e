%% Edges of a note and the bend: signs beside the head, one item each, with room of their own. They keep the same gap
%% from the head and its accidentals at the left, from the head, its dots and its flag at the right.

%% kind: (side heads-of-a-chord width path), the path from (0, 0) at the head outwards, in staff spaces.
#(define (gs:edge-shape kind depth)
   (case kind
     ((scoop) (list LEFT 'low 1.4 '(moveto 0 0 curveto -0.75 -0.02 -1.2 -0.6 -1.4 -1.6)))
     ((plop) (list LEFT 'high 1.4 '(moveto 0 0 curveto -0.75 0.02 -1.2 0.6 -1.4 1.6)))
     ((rip) (list LEFT 'low 1.7 '(moveto 0 0 lineto -1.7 -3.0)))
     ((doit) (list RIGHT 'high 1.9 '(moveto 0 0 curveto 1.0 0.02 1.6 0.8 1.9 2.1)))
     ((fall) (list RIGHT 'low 1.9 '(moveto 0 0 curveto 1.0 -0.02 1.6 -0.8 1.9 -2.1)))
     (else (list RIGHT (if (< depth 0) 'low 'high) 2.4 `(moveto 0 0 lineto 1.2 ,(* 0.5 depth) lineto 2.4 0)))))

#(define (gs:scaled path unit) (map (lambda (x) (if (number? x) (* unit x) x)) path))

#(define (gs:edge-heads grob) (sort (gs:list grob 'note-heads) (lambda (a b) (< (gs:position a) (gs:position b)))))
#(define (gs:edge-head grob which) ((if (eq? which 'low) first last) (gs:edge-heads grob)))

#(define (gs:edge-stencil grob)
   (let* ((details (gs:details grob))
          (shape (gs:edge-shape (gs:get details 'edge 'bend) (gs:get details 'depth -2)))
          (unit (gs:staff-space grob)))
     (ly:stencil-translate-axis
      (make-path-stencil (gs:scaled (fourth shape) unit) (* 0.16 unit) 1 1 #f)
      (* 0.5 unit (gs:position (gs:edge-head grob (second shape)))) Y)))

#(define (gs:edge-offset grob)
   (let* ((details (gs:details grob))
          (shape (gs:edge-shape (gs:get details 'edge 'bend) (gs:get details 'depth -2)))
          (heads (gs:edge-heads grob))
          (unit (gs:staff-space grob))
          (parent (ly:grob-parent grob X))
          (ledger (if (> (abs (gs:position (gs:edge-head grob (second shape)))) 5.5) 0.25 0))
          (gap (* unit (+ 0.4 ledger))))
     (if (= LEFT (first shape))
         (- (car (gs:reach (append heads (gs:accidentals heads)) parent)) gap)
         (+ (cdr (gs:reach (append heads (gs:dots heads) (gs:flag-beside (first heads) shape)) parent)) gap))))

%% The flag of a note, where the sign would run into it.
#(define (gs:flag-beside head shape)
   (let* ((stem (ly:grob-object head 'stem))
          (flag (if (ly:grob? stem) (ly:grob-object stem 'flag) #f))
          (goes (if (eq? 'high (second shape)) UP DOWN)))
     (if (and (ly:grob? flag) (eq? goes (ly:grob-property stem 'direction))) (list flag) '())))

%% Into the note: \gsScoop from below, \gsPlop from above (curved), \gsRip from far below (straight). Off the note:
%% \gsDoit upwards, \gsFall downwards (SMuFL brassScoop, brassPlop, brassDoit, brassFall).
gsScoop = #(gs:sign 'edge '((edge . scoop)))
gsPlop = #(gs:sign 'edge '((edge . plop)))
gsRip = #(gs:sign 'edge '((edge . rip)))
gsDoit = #(gs:sign 'edge '((edge . doit)))
gsFall = #(gs:sign 'edge '((edge . fall)))

%% \gsBend #-2: a small V after the note, as deep as given in half staff spaces: away from the pitch and back. An arc
%% would read as a tie.
gsBend =
#(define-event-function (depth) (number?) (gs:sign 'edge `((edge . bend) (depth . ,depth))))
