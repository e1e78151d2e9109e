\version "2.24.0"
%% Try-out sheets: numbered gestures, each with boxes for a player's answer at its left.

%% An empty box to tick, and the word after it.
#(define-markup-command (gs-box layout props text) (string?)
   (interpret-markup layout props
     (markup #:override '(thickness . 1.2) #:override '(box-padding . 0)
             #:line (#:box #:with-dimensions '(0 . 1.7) '(0 . 1.7) "" #:fontsize -2 text))))

%% \gs-trial "3." "fine" "with care" "no": the number of a trial and its boxes, in a line.
#(define-markup-command (gs-trial layout props number fine care no) (string? string? string? string?)
   (interpret-markup layout props
     (markup #:line (#:bold number #:hspace 0.2 #:gs-box fine #:hspace 0.4 #:gs-box care #:hspace 0.4 #:gs-box no))))

%% \gs-trials { a b }: one or two trials side by side, each in its half of the page, with room around them.
#(define-markup-command (gs-trials layout props cells) (markup-list?)
   (let* ((half (* 0.5 (ly:output-def-lookup layout 'line-width)))
          (drawn (map (lambda (cell) (interpret-markup layout props cell)) cells))
          (tops (map (lambda (cell) (interval-end (ly:stencil-extent cell Y))) drawn))
          (even (map (lambda (cell top n)
                       (ly:stencil-translate (ly:stencil-aligned-to cell X LEFT) (cons (* n half) (- top))))
                     drawn tops (iota (length drawn)))))
     (stack-stencils Y DOWN 0.9
       (list (apply ly:stencil-add even)
             (ly:make-stencil '() '(0 . 1) '(0 . 0.1))))))

%% \gs-blanks "Player" "Date": two words across the page, each with a line to write on after it.
#(define-markup-command (gs-blanks layout props player date) (string? string?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (part (lambda (text share)
                  (let* ((word (interpret-markup layout props text))
                         (from (+ 1 (interval-end (ly:stencil-extent word X))))
                         (to (max (+ from 5) (- (* share width) 2))))
                    (ly:stencil-add word (make-line-stencil 0.08 from -0.3 to -0.3)
                                    (ly:make-stencil '() (cons 0 (* share width)) '(-1.8 . 1.6)))))))
     (ly:stencil-add (part player 0.62)
                     (ly:stencil-translate-axis (part date 0.38) (* 0.62 width) X))))

%% What is tried, and how.
#(define-markup-command (gs-asked layout props title ask) (string? string?)
   (interpret-markup layout props
     (markup #:column (#:vspace 0.3 #:bold title #:fontsize -1 #:italic #:gs-words ask #:vspace 0.15))))

%% Notes of a trial are closer, so that sixteen strokes fit half of a page.
gsTrial = \layout {
  \gsNumbered
  indent = 0
  short-indent = 0
  line-width = 82\mm
  \context { \Score \override SpacingSpanner.spacing-increment = #1.1 }
}
gsTrialInTime = \layout {
  \gsNumberedInTime
  indent = 0
  short-indent = 0
  line-width = 82\mm
  \context {
    \Score
    proportionalNotationDuration = #(ly:make-moment 2/1)
    \override SpacingSpanner.spacing-increment = #0.7
  }
}
gsTryOutPaper = \paper {
  \gsExercisePaper
}
