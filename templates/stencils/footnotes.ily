%% Footnotes: their numbers, their texts, and how they are counted through a composer's score.

%% The number of a footnote in a thin circle, so that it is not taken for a finger, a slide position or a triplet; for
%% more digits the circle is stretched. It is on the baseline, like digits; its origin is the middle of its first
%% round end.
#(define-markup-command (gs-circled layout props text) (string?)
   (let* ((figures (interpret-markup layout props text))
          (size (magstep (chain-assoc-get 'font-size props 0)))
          (y (ly:stencil-extent (interpret-markup layout props "0") Y))  ; whichever digits they are
          (radius (+ (/ (interval-length y) 2) (* 0.45 size)))
          (half (max 0 (- (+ (/ (interval-length (ly:stencil-extent figures X)) 2) (* 0.55 size)) radius)))
          (k (* 0.5523 radius)) (left (- half)) (low (- radius))  ; k: a quarter of a circle as a curve
          (round (make-path-stencil
                  (list 'moveto left radius 'lineto half radius
                        'curveto (+ half k) radius (+ half radius) k (+ half radius) 0
                        'curveto (+ half radius) (- k) (+ half k) low half low
                        'lineto left low
                        'curveto (- left k) low (- left radius) (- k) (- left radius) 0
                        'curveto (- left radius) k (- left k) radius left radius 'closepath)
                  (* 0.1 size) 1 1 #f)))
     (ly:stencil-translate
      (ly:stencil-add (ly:stencil-translate-axis (ly:stencil-aligned-to figures X CENTER) (- (interval-center y)) Y) round)
      (cons half (interval-center y)))))

%% A text whose height depends on its number of lines only, not on its letters: what follows is at an even distance.
#(define (gs:even-height skip below stencil)
   (let* ((y (ly:stencil-extent stencil Y))
          (lines (if (interval-empty? y) 0 (round (/ (max 0 (- (car y))) skip)))))
     (ly:make-stencil (ly:stencil-expr stencil) (ly:stencil-extent stencil X)
                      (cons (- (+ below (* skip lines))) 1.4))))

%% A name with ♯ and ♭ set as signs of the music font; text with such names, in lines.
#(define (gs:signed text) (make-concat-markup (gs:with-signs text (cdr gs:text-signs))))
#(define-markup-command (gs-name layout props text) (string?)
   (interpret-markup layout props (gs:signed text)))
#(define-markup-command (gs-words layout props text) (string?)
   (interpret-markup layout props
     (if (string-any (lambda (c) (memv c '(#\♯ #\♭))) text)
         (make-wordwrap-markup (map gs:signed (string-split text #\space)))
         (make-wordwrap-string-markup text))))

%% A footnote: its number in a separate column, beside it the text in lines. `line-width` in staff spaces, as for any text.
#(define-markup-command (gs-note layout props number text) (string? string?)
   #:properties ((gs-note-indent 3.4) (gs-note-size -1.5) (line-width #f))
   (let* ((width (or line-width (ly:output-def-lookup layout 'line-width)))
          (small (cons (list (cons 'font-size gs-note-size)) props))
          (figure (interpret-markup layout small (markup #:general-align X LEFT #:fontsize -2 #:gs-circled number)))
          (indent (max gs-note-indent (+ 0.8 (interval-length (ly:stencil-extent figure X)))))
          (body (interpret-markup layout
                  (cons (list (cons 'line-width (- width indent)) (cons 'baseline-skip 2.3)) small)
                  (markup #:gs-words text))))
     (gs:even-height 2.3 0.5 (ly:stencil-add figure (ly:stencil-translate-axis body indent X)))))

%% --- in a composer's own score -------------------------------------------------------------------------------------

%% (text . number) of all footnotes in the score, newest first: numbers continue from one \score of a book to the next,
%% in the order of the music, and a text has the same number each time. After the list has been printed, the next
%% score, that of another part for example, begins with 1 again.
#(define gs:score-notes '())
#(define gs:notes-printed #f)
#(define (gs:begin-notes!)
   (if gs:notes-printed (begin (set! gs:score-notes '()) (set! gs:notes-printed #f))))
#(define (gs:number-of! text)
   (let ((known (assoc-ref gs:score-notes text)))
     (or known
         (let ((number (1+ (length gs:score-notes))))
           (set! gs:score-notes (acons text number gs:score-notes))
           number))))

%% \gsFootnotes after a score, or at the end of its book: the texts of all its footnotes, as wide as the page.
#(define-markup-list-command (gs-footnotes layout props) ()
   (set! gs:notes-printed #t)
   (interpret-markup-list layout props
     (map (lambda (n) (make-gs-note-markup (number->string (cdr n)) (car n))) (reverse gs:score-notes))))
gsFootnotes = \markuplist \gs-footnotes
