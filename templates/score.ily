\version "2.24.0"
%% The score of a file for several instruments.

%% Markups below each other, with any number of lines each.
#(define-markup-command (gs-under layout props upper lower) (markup? markup?)
   (stack-stencils Y DOWN 0.5 (list (interpret-markup layout props upper) (interpret-markup layout props lower))))

%% A part's name and, smaller below it, its instrument or player; "" for none.
#(define-markup-command (gs-staff-name layout props name instrument) (string? string?)
   (let ((width (- (ly:output-def-lookup layout 'indent) 3.5)))
     (interpret-markup layout (cons `((line-width . ,width) (baseline-skip . 2.2)) props)
       (if (string-null? instrument) (markup #:gs-words name)
           (markup #:gs-under #:gs-words name #:fontsize -2 #:gs-words instrument)))))

%% Names are at the left; the staves of a system are kept together.
gsScoreNames = \with {
  \override InstrumentName.self-alignment-X = #LEFT
  \override InstrumentName.extra-offset = #'(2 . 0)
}
gsScoreLines = \layout {
  \gsLines
  indent = 30\mm
  short-indent = 17\mm
  \context { \Score \gsScoreNames }
}
gsScoreLinesInTime = \layout {
  \gsLinesInTime
  indent = 30\mm
  short-indent = 17\mm
  \context { \Score \gsScoreNames }
}
gsScorePicture = \layout {
  \gsPicture
  indent = 30\mm
  short-indent = 17\mm
  \context { \Score \gsScoreNames }
}
gsScorePictureInTime = \layout {
  \gsPictureInTime
  indent = 30\mm
  short-indent = 17\mm
  \context { \Score \gsScoreNames }
}
