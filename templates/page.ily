\version "2.24.0"
%% The page of a file.

%% Put before a book: whole pages are printed. Footnotes that are on nearly every page are the common ones: the page
%% breaker reserves room for them once on each.
gsPages =
#(define-void-function (common) (list?)
   (ly:set-option 'crop #f)
   (ly:set-option 'print-pages #t)
   (set! gs:common-notes common)
   (set! gs:laying-out #f))

%% The line above the footnotes; during page breaking, with the height of the common footnotes added.
#(define-markup-command (gs-above-notes layout props) ()
   (let ((line (interpret-markup layout props
                 (markup #:column (#:vspace 0.6 #:override '(span-factor . 1/4) #:draw-hline #:vspace 0.2))))
         (notes (interpret-markup layout props
                  (make-gs-notes-markup (map (lambda (text) (cons text 1)) gs:common-notes)))))
     (if gs:laying-out line
         (let ((expected (if (ly:stencil-empty? notes) line
                             (stack-stencils Y DOWN (ly:output-def-lookup layout 'footnote-padding 0.2)
                                             (list line notes)))))
           ;; A little more: a page must not become fuller than estimated.
           (ly:make-stencil (ly:stencil-expr expected) (ly:stencil-extent expected X)
                            (interval-widen (ly:stencil-extent expected Y) 1))))))

%% Small notes of another part beside a rest, which moves out of the way, below the part's name; "": the current clef.
gsCue =
#(define-music-function (dir quote name clef rest) (ly:dir? string? string? string? ly:music?)
   (let ((cued (if (string-null? clef) #{ \cueDuring #quote #dir { #rest } #}
                   #{ \cueDuringWithClef #quote #dir #clef { #rest } #})))
     #{
       \temporary \override Staff.MultiMeasureRest.staff-position = #(* -6 dir)
       <>^\markup \fontsize #-2 \gs-name #name
       #cued
       \revert Staff.MultiMeasureRest.staff-position
     #}))

%% No page ends where there is no time to turn.
gsPlaysOn = \noPageBreak

#(define-markup-command (gs-section layout props text) (string?)
   (interpret-markup layout props
     (markup #:override '(baseline-skip . 2.2)
             #:column (#:vspace 1.5 #:fontsize 2 #:bold text #:override '(thickness . 1.2) #:draw-hline #:vspace 0.4))))

%% The title above a score; nothing at all without a title, or every row would reserve room for one.
#(define-markup-command (gs-piece layout props) ()
   (let ((piece (chain-assoc-get 'header:piece props #f)))
     (if piece
         (interpret-markup layout props (markup #:column (#:vspace 1.1 piece #:vspace 0.3)))
         empty-stencil)))

%% During page breaking LilyPond only estimates the height of signs and words above and below a staff. Usually that is
%% too high; with a little added, it is rarely too low.
#(define (gs:room-for-signs grob)
   (let ((wide (lambda (all)
                 (list->vector
                  (map (lambda (y) (if (interval-empty? y) y (interval-widen y 0.3))) (vector->list all)))))
         (heights (ly:axis-group-interface::adjacent-pure-heights grob)))
     (cons (wide (car heights)) (wide (cdr heights)))))

%% A gesture's row: its title at the left, the music beside it.
#(define-markup-command (gs-label layout props text) (string?)
   (let* ((width (- (ly:output-def-lookup layout 'indent) 1.5))
          (label (interpret-markup layout (cons `((line-width . ,width) (baseline-skip . 2.4)) props)
                   (markup #:bold #:gs-words text)))
          (natural (interval-length (ly:stencil-extent label X))))
     ;; A single long word cannot be broken, so it is scaled down.
     (if (> natural width) (ly:stencil-scale label (/ width natural) (/ width natural)) label)))
gsRow = \layout {
  \gsPicture
  indent = 36\mm
  short-indent = 36\mm
  \context {
    \Score
    \override InstrumentName.self-alignment-X = #LEFT
    \override InstrumentName.extra-offset = #'(0.3 . 0)
  }
  \context {
    \Staff
    \override VerticalAxisGroup.adjacent-pure-heights = #gs:room-for-signs
  }
}
gsRowInTime = \layout {
  \gsPictureInTime
  indent = 36\mm
  short-indent = 36\mm
  \context {
    \Score
    \override InstrumentName.self-alignment-X = #LEFT
    \override InstrumentName.extra-offset = #'(0.3 . 0)
  }
  \context {
    \Staff
    \override VerticalAxisGroup.adjacent-pure-heights = #gs:room-for-signs
  }
}

%% A passage across the page.
gsLines = \layout {
  \gsPicture
  ragged-right = ##f
  \context {
    \Staff
    \override VerticalAxisGroup.adjacent-pure-heights = #gs:room-for-signs
  }
}
gsLinesInTime = \layout {
  \gsPictureInTime
  ragged-right = ##f
  \context {
    \Staff
    \override VerticalAxisGroup.adjacent-pure-heights = #gs:room-for-signs
  }
}

#(define-markup-command (gs-heading layout props text) (string?)
   (interpret-markup layout props (markup #:bold text)))

#(define-markup-command (gs-finding layout props text) (string?)
   (gs:even-height 2.3 1.6
     (interpret-markup layout (cons '((font-size . -1.5) (baseline-skip . 2.3)) props)
       (markup #:italic #:gs-words text))))

#(define-markup-command (gs-paragraph layout props text) (string?)
   (gs:even-height 2.5 1.7
     (interpret-markup layout (cons '((font-size . -1) (baseline-skip . 2.5)) props)
       (markup #:gs-words text))))

%% A stencil, scaled down if it is wider than `width`.
#(define (gs:fit width stencil)
   (let ((natural (interval-length (ly:stencil-extent stencil X))))
     (if (> natural (+ width 0.1)) (ly:stencil-scale stencil (/ width natural) (/ width natural)) stencil)))

%% A line with a left, a middle and a right part that do not overlap.
#(define-markup-command (gs-three layout props left middle right) (markup? markup? markup?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (middle (interpret-markup layout props middle))
          (share (if (ly:stencil-empty? middle) 0.7 0.34))
          (set (lambda (share part align)
                 (ly:stencil-translate-axis (ly:stencil-aligned-to (gs:fit (* share width) part) X align)
                                            (* width 0.5 (1+ align)) X)))
          (all (ly:stencil-add
                (set share (interpret-markup layout (cons `((gs-brief-width . ,(* share width))) props) left) LEFT)
                (set 0.36 middle CENTER)
                (set 0.26 (interpret-markup layout props right) RIGHT))))
     (ly:make-stencil (ly:stencil-expr all) (cons 0 width) (ly:stencil-extent all Y))))

%% A text cut to the words that fit, with dots for the rest.
#(define-markup-command (gs-brief layout props text) (markup?)
   #:properties ((gs-brief-width #f))
   (let ((set (lambda (text) (interpret-markup layout props text))))
     (let loop ((brief text))
       (let* ((stencil (set (if (eq? brief text) text (string-append brief " …"))))
              (last (if (string? text) (string-rindex brief #\space) #f)))
         (if (or (not last) (not gs-brief-width) (ly:stencil-empty? stencil)
                 (<= (interval-length (ly:stencil-extent stencil X)) gs-brief-width))
             stencil
             (loop (substring brief 0 last)))))))
#(define-markup-command (gs-running-title layout props) ()
   (interpret-markup layout props (markup #:small #:gs-brief (chain-assoc-get 'header:title props ""))))

%% The title in the middle, with the stamp of a draft at its right, or above it if they do not fit on one line. A long
%% title is broken into lines of about equal length.
#(define-markup-command (gs-title layout props size) (number?)
   (let* ((bold (cons `((font-size . ,size) (font-series . bold) (word-space . ,(* 0.65 (magstep size)))) props))
          (text (chain-assoc-get 'header:title props ""))
          (title (interpret-markup layout bold text))
          (stamp (interpret-markup layout props (chain-assoc-get 'header:draft props "")))
          (wide (lambda (stencil) (if (ly:stencil-empty? stencil) 0 (interval-length (ly:stencil-extent stencil X)))))
          (width (ly:output-def-lookup layout 'line-width))
          (beside? (< (+ (wide title) (* 2 (+ 2 (wide stamp)))) width))
          (most (- width 4))
          (even (min most (* 1.1 (/ (wide title) (max 1 (ceiling (/ (wide title) most)))))))
          (lines (if (or (<= (wide title) most) (not (string? text))) (list title)
                     (interpret-markup-list layout (cons `((line-width . ,even)) bold)
                       (make-wordwrap-string-internal-markup-list #f text))))
          (middle (lambda (line)
                    (ly:stencil-translate-axis (ly:stencil-aligned-to (gs:fit most line) X CENTER) (/ width 2) X)))
          (all (stack-lines DOWN 0 (* 2.75 (magstep size)) (map middle lines)))
          (stamp (ly:stencil-translate-axis (ly:stencil-aligned-to stamp X RIGHT) width X)))
     (if beside? (ly:stencil-add all stamp)
         (stack-stencils Y DOWN 1 (remove ly:stencil-empty? (list stamp all))))))

gsPagePaper = \paper {
  % Pages are filled one by one; if the music were spread evenly, most would be half empty.
  page-breaking = #ly:minimal-breaking
  top-margin = 12\mm
  bottom-margin = 12\mm
  left-margin = 18\mm
  right-margin = 16\mm
  indent = 0
  short-indent = 0
  ragged-right = ##t
  ragged-last = ##t
  ragged-bottom = ##t
  ragged-last-bottom = ##t
  tagline = ##f
  print-first-page-number = ##t
  print-page-number = ##t
  footnote-separator-markup = \markup \gs-above-notes
  footnote-padding = 0.4\mm
  footnote-footer-padding = 1\mm
  % The page breaker does not count all of these distances, so they are small, and the room around headings is in
  % the headings.
  markup-system-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 0) (stretchability . 1))
  score-markup-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 0) (stretchability . 20))
  score-system-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 3.6) (stretchability . 20))
  system-system-spacing = #'((basic-distance . 11) (minimum-distance . 8) (padding . 2) (stretchability . 20))
  markup-markup-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 0) (stretchability . 1))
  top-markup-spacing = #'((basic-distance . 0) (minimum-distance . 0) (padding . 1.5) (stretchability . 0))
  last-bottom-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 0) (stretchability . 30))
  bookTitleMarkup = \markup \column {
    \gs-title #5
    \vspace #0.3
    \fill-line { \null \fontsize #1 \italic \fromproperty #'header:subtitle \null }
    \vspace #0.5
    \fill-line { \fromproperty #'header:instrument \null \fromproperty #'header:composer }
    \fromproperty #'header:pitchLine
    \fromproperty #'header:noticeLine
    \vspace #0.2
    \fromproperty #'header:tempoLine
    \vspace #0.2
  }
  scoreTitleMarkup = \markup \gs-piece
  oddHeaderMarkup = \markup \unless \on-first-page \gs-three
    \gs-running-title
    \fromproperty #'header:draft
    \small \fromproperty #'header:instrument
  evenHeaderMarkup = \oddHeaderMarkup
  oddFooterMarkup = \markup \fill-line { \null \small \fromproperty #'page:page-number-string \null }
  evenFooterMarkup = \oddFooterMarkup
}
