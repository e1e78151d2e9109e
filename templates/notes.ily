\version "2.24.0"
%% Notes pages: rows of picture, number, name and text in one or two columns, all on one baseline grid.
%% `gs-columns` is set in the \paper block of each book.

%% By number of columns: distance between lines of text in staff spaces, size of the text in font steps, width of the
%% pictures as a share of the column.
#(define gs:notes-measures '((1 . (2.9 0.5 0.32)) (2 . (2.95 1.4 0.32))))
#(define (gs:measure layout n)
   (list-ref (assv-ref gs:notes-measures (ly:output-def-lookup layout 'gs-columns)) n))
#(define (gs:grid layout) (gs:measure layout 0))
#(define gs:gutter 5.0)  % between two columns
#(define gs:beside 2.5)  % between picture and text
#(define gs:above-staff 4.6)  % minimum from the top of a row to the middle line of its staves

#(define (gs:up-to-grid layout height)
   (* (gs:grid layout) (ceiling (- (/ height (gs:grid layout)) 0.05))))

%% Text within a width. A word wider than that (an address, say) is broken at the end of the line.
#(define (gs:text-within layout props width text)
   (let* ((props (cons `((line-width . ,width) (baseline-skip . ,(gs:grid layout)) (font-size . ,(gs:measure layout 1)))
                       props))
          (set (lambda (text) (interpret-markup layout props (markup #:gs-words text))))
          (wide (lambda (stencil) (interval-length (ly:stencil-extent stencil X))))
          (whole (set text)))
     (if (<= (wide whole) (+ width 0.1))
         whole
         (set (string-join (append-map (lambda (word) (gs:word-pieces word (lambda (w) (wide (set w))) width))
                                       (string-split text #\space)))))))

%% A word in pieces that fit.
#(define (gs:word-pieces word width-of most)
   (let ((length (string-length word)))
     (if (or (< length 2) (<= (width-of word) most))
         (list word)
         (let ((at (max 1 (min (1- length) (inexact->exact (floor (* length 0.95 (/ most (width-of word)))))))))
           (append (gs:word-pieces (substring word 0 at) width-of most) (gs:word-pieces (substring word at) width-of most))))))

%% Texts one below the other, with baselines on the grid and the first at 0. Their height extends from there to the last
%% baseline. The second language is in italics.
#(define (gs:texts layout props width texts)
   (let ((grid (gs:grid layout)))
     (let loop ((rest texts) (line 0) (all empty-stencil))
       (if (null? rest)
           (ly:make-stencil (ly:stencil-expr all) (cons 0 width) (cons (* grid (- 1 line)) 0))
           (let* ((shaped (if (eq? rest texts) props (cons '((font-shape . italic)) props)))
                  (set (gs:text-within layout shaped width (car rest)))
                  (lines (1+ (round (/ (max 0 (- (interval-bound (ly:stencil-extent set Y) DOWN))) grid)))))
             (loop (cdr rest)
                   (+ line lines)
                   (ly:stencil-add all (ly:stencil-translate-axis set (* line grid -1) Y))))))))

%% The same, one after the other in one paragraph.
#(define (gs:run-in layout props width texts)
   (let* ((grid (gs:grid layout))
          (words (lambda (text) (string-split text #\space)))
          (all (append (words (car texts))
                       (append-map (lambda (text) (map make-italic-markup (cons "/" (words text)))) (cdr texts))))
          (props (cons `((line-width . ,width) (baseline-skip . ,grid) (font-size . ,(gs:measure layout 1))) props))
          (set (interpret-markup layout props (make-wordwrap-markup all)))
          (lines (1+ (round (/ (max 0 (- (interval-bound (ly:stencil-extent set Y) DOWN))) grid)))))
     (ly:make-stencil (ly:stencil-expr set) (cons 0 width) (cons (* grid (- 1 lines)) 0))))

%% Number and name, with the texts below them. A sign has no number.
#(define-markup-command (gs-entry layout props number name texts) (string? string? markup-list?)
   #:properties ((line-width #f))
   (let* ((grid (gs:grid layout))
          (figure (if (string-null? number) empty-stencil
                      (interpret-markup layout props
                        (markup #:general-align X LEFT #:fontsize (- (gs:measure layout 1) 2) #:gs-circled number))))
          (indent (if (string-null? number) 0 (+ 0.9 (interval-length (ly:stencil-extent figure X)))))
          (title (gs:texts layout (cons '((font-series . bold)) props) (- line-width indent) (list name)))
          (low (- (interval-bound (ly:stencil-extent title Y) DOWN) grid))
          (body (gs:texts layout props line-width texts))
          (all (ly:stencil-add figure
                               (ly:stencil-translate-axis title indent X)
                               (ly:stencil-translate-axis body low Y))))
     (ly:make-stencil (ly:stencil-expr all) (cons 0 line-width)
                      (cons (+ low (interval-bound (ly:stencil-extent body Y) DOWN)) 0))))

%% The heading of a section above its first entry, in that entry's column; nothing for no texts. Its rule is a little
%% above the foot of its last line of the grid.
#(define (gs:heading-within layout props width texts)
   (if (null? texts)
       empty-stencil
       (let* ((grid (gs:grid layout))
              (larger (cons `((font-series . bold) (font-size . ,(+ 1 (gs:measure layout 1)))) props))
              (lines (map (lambda (text) (gs:lines-within layout larger width text)) texts))
              (count (apply + (map length lines)))
              (rule (make-line-stencil 0.12 0 0 width 0)))
         (let loop ((rest (apply append lines)) (line 1) (all empty-stencil))
           (if (null? rest)
               (let ((stencil (ly:stencil-add all (ly:stencil-translate-axis rule (* -1 grid (+ count 0.4)) Y))))
                 (ly:make-stencil (ly:stencil-expr stencil) (cons 0 width) (cons (* -1 grid (1+ count)) 0)))
               (loop (cdr rest) (1+ line)
                     (ly:stencil-add all (ly:stencil-translate-axis (car rest) (* -1 line grid) Y))))))))

%% A text as lines no wider than `width`, for one line each.
#(define (gs:lines-within layout props width text)
   (let* ((set (lambda (words) (interpret-markup layout props (markup (string-join words)))))
          (fits? (lambda (words) (<= (interval-length (ly:stencil-extent (set words) X)) width))))
     (let loop ((words (string-split text #\space)) (now '()) (lines '()))
       (cond ((null? words) (map (lambda (line) (gs:fit width (set line))) (reverse (if (null? now) lines (cons now lines)))))
             ((or (null? now) (fits? (append now (list (car words)))))
              (loop (cdr words) (append now (list (car words))) lines))
             (else (loop words '() (cons now lines)))))))

%% One row: heading, picture and entry, once or twice. The middle lines of its staves are on the grid, and at the same
%% height if both or neither of its entries have a heading.
#(define-markup-command (gs-row layout props headings parts) (list? markup-list?)
   (let* ((columns (ly:output-def-lookup layout 'gs-columns))
          (whole (ly:output-def-lookup layout 'line-width))
          (column (/ (- whole (* gs:gutter (1- columns))) columns))
          (grid (gs:grid layout))
          (picture (* column (gs:measure layout 2))))
     (let loop ((rest parts) (pictures '()) (entries '()))
       (if (pair? rest)
           (loop (cddr rest)
                 (cons (gs:picture-within layout props picture (car rest)) pictures)
                 (cons (interpret-markup layout
                         (cons `((line-width . ,(- column picture gs:beside))) props) (cadr rest))
                       entries))
           (let* ((top (lambda (stencil) (interval-bound (ly:stencil-extent stencil Y) UP)))
                  (above (map (lambda (texts) (gs:heading-within layout props column texts)) headings))
                  (tall (lambda (stencil)
                          (if (ly:stencil-empty? stencil) 0 (- (interval-bound (ly:stencil-extent stencil Y) DOWN)))))
                  (highest (apply max (map tall above)))
                  (below (map (lambda (stencil) (if (ly:stencil-empty? stencil) 0 highest)) above))
                  (middle (gs:up-to-grid layout (apply max gs:above-staff (map top pictures))))
                  (left (lambda (n) (* n (+ column gs:gutter))))
                  ;; Headings side by side have their rules at one height.
                  (titles (map (lambda (stencil n)
                                 (ly:stencil-translate stencil (cons (left n) (- (tall stencil) highest))))
                               above (iota (length above))))
                  (placed (map (lambda (stencil lower n)
                                 (ly:stencil-translate stencil (cons (left n) (- (+ lower middle)))))
                               (reverse pictures) below (iota (length pictures))))
                  (texts (map (lambda (stencil lower n)
                                (ly:stencil-translate stencil
                                  (cons (+ (left n) picture gs:beside) (- (+ lower grid)))))
                              (reverse entries) below (iota (length entries))))
                  (all (apply ly:stencil-add (append titles placed texts)))
                  (low (- (interval-bound (ly:stencil-extent all Y) DOWN))))
             (ly:make-stencil (ly:stencil-expr all) (cons 0 whole)
                              (cons (- (+ (gs:up-to-grid layout low) grid)) 0)))))))

%% A picture of width `width`; one that LilyPond cannot fit into it is scaled down. The score takes its width from the
%% paper itself (with a copy of the paper its fonts would be missing from PostScript).
#(define (gs:picture-within layout props width picture)
   (let ((whole (ly:output-def-lookup layout 'line-width)))
     (ly:output-def-set-variable! layout 'line-width width)
     (let* ((set (interpret-markup layout props picture))
            (right (interval-bound (ly:stencil-extent set X) RIGHT)))
       (ly:output-def-set-variable! layout 'line-width whole)
       (if (> right (+ width 0.2)) (ly:stencil-scale set (/ width right) (/ width right)) set))))

%% Centred in the line, and no wider.
#(define-markup-command (gs-middle layout props size text) (number? markup?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (set (gs:fit width (interpret-markup layout props (markup #:fontsize size text)))))
     (ly:stencil-translate-axis (ly:stencil-aligned-to set X CENTER) (/ width 2) X)))

%% Headings and paragraphs are on the grid as well.
#(define-markup-command (gs-notes-section layout props text) (string?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (grid (gs:grid layout))
          (set (interpret-markup layout props (markup #:fontsize (+ 2 (gs:measure layout 1)) #:bold text)))
          (rule (make-line-stencil 0.12 0 0 width 0))
          (all (ly:stencil-add (ly:stencil-translate-axis set (* -1 grid) Y)
                               (ly:stencil-translate-axis rule (* -1.4 grid) Y))))
     (ly:make-stencil (ly:stencil-expr all) (cons 0 width) (cons (* -2 grid) 0))))

#(define-markup-command (gs-notes-paragraph layout props texts) (markup-list?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (grid (gs:grid layout))
          (body (ly:stencil-translate-axis (gs:run-in layout props width texts) (* -0.7 grid) Y)))
     (ly:make-stencil (ly:stencil-expr body) (cons 0 width)
                      (cons (- (interval-bound (ly:stencil-extent body Y) DOWN) (* 0.45 grid)) 0))))

%% "page 1 of 3": strings, and the symbols `page` and `pages` for the numbers. The number of pages is only known at the
%% end, so it is filled in then, centred in its place.
#(define-markup-command (gs-page-of layout props parts) (list?)
   (let ((page (chain-assoc-get 'page:page-number-string props "")))
     (ly:make-stencil
      `(delay-stencil-evaluation
        ,(delay
          (let* ((table (ly:output-def-lookup layout 'label-page-table))
                 (last (if (list? table) (assq 'gs-end table) #f))
                 (said (map (lambda (part)
                              (case part
                                ((page) page)
                                ((pages) (if last (number->string (cdr last)) "?"))
                                (else part)))
                            parts)))
            (ly:stencil-expr
             (ly:stencil-aligned-to
              (interpret-markup layout props (markup (apply string-append said))) X CENTER)))))
      '(0 . 0)
      '(-0.6 . 1.8))))

gsNotesPicture = \layout {
  \gsPicture
  ragged-right = ##f
  ragged-last = ##f
  \context {
    \Score
    \override SpacingSpanner.spacing-increment = #1.4
    \override NonMusicalPaperColumn.line-break-permission = ##f
    % All pictures have the same width; a line between two notes gets the remaining space.
    \override GestureRoom.springs-and-rods = ##f
  }
}
gsNotesPictureInTime = \layout {
  \gsPictureInTime
  ragged-right = ##f
  ragged-last = ##f
  \context {
    \Score
    \override NonMusicalPaperColumn.line-break-permission = ##f
    \override GestureRoom.springs-and-rods = ##f
  }
}

gsNotesPaper = \paper {
  \gsPagePaper
  top-margin = 9\mm
  bottom-margin = 8\mm
  left-margin = 15\mm
  right-margin = 15\mm
  markup-system-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  markup-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  top-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  bookTitleMarkup = \markup \column {
    \gs-middle #5 \bold \fromproperty #'header:title
    \vspace #0.2
    \gs-middle #2 \italic \fromproperty #'header:subtitle
    \vspace #0.2
    \fontsize #1.5 \gs-three \fromproperty #'header:instrument \null \fromproperty #'header:composer
    \vspace #0.2
  }
  oddHeaderMarkup = \markup \unless \on-first-page \column {
    \fontsize #1.2 \gs-three
      \fromproperty #'header:title
      \fromproperty #'header:running
      \fromproperty #'header:instrument
    \vspace #0.5
  }
  evenHeaderMarkup = \oddHeaderMarkup
  oddFooterMarkup = \markup \column {
    \vspace #0.6
    \fontsize #1.2 \gs-three \fromproperty #'header:version \fromproperty #'header:pageOf \null
  }
  evenFooterMarkup = \oddFooterMarkup
}
