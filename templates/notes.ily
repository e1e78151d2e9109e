\version "2.24.0"
%% Notes pages: rows of picture, number, name and text in one or two columns, all on one baseline grid.
%% `gs-columns` is set in the \paper block of each book.

%% By number of columns: distance between lines of text in staff spaces, size of the text in font steps, width of the
%% pictures as a share of the column.
#(define gs:notes-measures '((1 . (2.9 0.5 0.32)) (2 . (3.3 1.9 0.46))))
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

%% One row: picture and entry, once or twice. The middle lines of its staves are at the same height, on the grid.
#(define-markup-command (gs-row layout props parts) (markup-list?)
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
                  (middle (- (gs:up-to-grid layout (apply max gs:above-staff (map top pictures)))))
                  (placed (map (lambda (stencil n)
                                 (ly:stencil-translate stencil (cons (* n (+ column gs:gutter)) middle)))
                               (reverse pictures) (iota (length pictures))))
                  (texts (map (lambda (stencil n)
                                (ly:stencil-translate stencil
                                  (cons (+ (* n (+ column gs:gutter)) picture gs:beside) (- grid))))
                              (reverse entries) (iota (length entries))))
                  (all (apply ly:stencil-add (append placed texts)))
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
          (body (ly:stencil-translate-axis (gs:texts layout props width texts) (* -0.75 grid) Y)))
     (ly:make-stencil (ly:stencil-expr body) (cons 0 width)
                      (cons (- (interval-bound (ly:stencil-extent body Y) DOWN) (* 0.75 grid)) 0))))

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
  markup-system-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  markup-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  top-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 0) (stretchability . 0))
  bookTitleMarkup = \markup \column {
    \gs-middle #6 \bold \fromproperty #'header:title
    \vspace #0.4
    \gs-middle #2 \italic \fromproperty #'header:subtitle
    \vspace #0.8
    \fontsize #1.5 \gs-three \fromproperty #'header:instrument \null \fromproperty #'header:composer
    \vspace #1
  }
  oddHeaderMarkup = \markup \unless \on-first-page \column {
    \fontsize #1.2 \gs-three
      \fromproperty #'header:title
      \fromproperty #'header:running
      \fromproperty #'header:instrument
    \vspace #1
  }
  evenHeaderMarkup = \oddHeaderMarkup
  oddFooterMarkup = \markup \column {
    \vspace #0.6
    \fontsize #1.2 \gs-three \fromproperty #'header:version \fromproperty #'header:pageOf \null
  }
  evenFooterMarkup = \oddFooterMarkup
}
