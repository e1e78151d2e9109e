\version "2.24.0"
%% Exercise sheets: numbered lines, each preceded by its plain preparation and followed by its rest.

%% \gsPreparation { g'16 c''16 }: plain notes to play first, in small heads without values, up to a broken bar line.
%% The meter begins after it. In a cadenza no measure ends; the music after it must still begin a new measure, or its
%% accidentals would count as already printed.
gsPreparation =
#(define-music-function (music) (ly:music?)
   #{ \once \omit Staff.TimeSignature
      \cadenzaOn
      \temporary \override Stem.stencil = ##f
      \temporary \override Flag.stencil = ##f
      \temporary \override NoteHead.duration-log = #2
      \temporary \override NoteHead.font-size = #-3
      \temporary \override Accidental.font-size = #-3
      #music
      \revert Stem.stencil
      \revert Flag.stencil
      \revert NoteHead.duration-log
      \revert NoteHead.font-size
      \revert Accidental.font-size
      \bar "!"
      \context Score \applyContext
        #(lambda (context)
           (ly:context-set-property! context 'internalBarNumber
             (1+ (ly:context-property context 'internalBarNumber 1))))
      \cadenzaOff #})

%% \gsPrepared "Preparation" (at the first of the small notes): the word above them, where they first appear.
#(define-markup-command (gs-prepared layout props text) (string?)
   (interpret-markup layout props (markup #:fontsize -2 #:italic text)))
gsPrepared =
#(define-event-function (text) (string?)
   #{ -\tweak self-alignment-X #LEFT ^\markup \gs-prepared #text #})

%% \gsPreparedRoom "Preparation" 2 (at the last of that many notes): adds the space the word still needs. The word ends
%% before the broken bar line: above the music it would seem to refer to that, or collide with another word.
#(define gs:prepared-step 2.3)  % actual minimum in staff spaces from one small note to the next; our own judgement
#(define-markup-command (gs-prepared-room layout props text count) (string? integer?)
   (let ((word (ly:stencil-extent (interpret-markup layout props (make-gs-prepared-markup text)) X)))
     (ly:make-stencil '() (cons 0 (max 0 (- (interval-length word) (* gs:prepared-step (1- count))))) '(0 . 0))))
gsPreparedRoom =
#(define-event-function (text count) (string? integer?)
   #{ -\tweak self-alignment-X #LEFT
      -\tweak extra-spacing-width #'(0 . 0)
      -\tweak extra-spacing-height #'(-inf.0 . +inf.0)
      ^\markup \gs-prepared-room #text #count #})

%% \gsRest "rest 15 s" R1\fermata: the rest after a line; it is not counted in bars, and stays on the line.
gsRest =
#(define-music-function (text music) (string? ly:music?)
   #{ \noBreak
      <>-\tweak outside-staff-priority #1200 -\tweak self-alignment-X #LEFT ^\markup \fontsize #-1 \italic #text
      #music #})

gsNumbered = \layout {
  \gsPicture
  indent = 9\mm
  short-indent = 9\mm
  \context {
    \Score
    \override SpacingSpanner.spacing-increment = #1.6
    \override InstrumentName.self-alignment-X = #LEFT
    \override InstrumentName.extra-offset = #'(0.3 . 0)
  }
}
gsNumberedInTime = \layout {
  \gsNumbered
  \context {
    \Score
    proportionalNotationDuration = #(ly:make-moment 1/12)
    \override SpacingSpanner.uniform-stretching = ##t
  }
}

%% Lines as wide as the page.
gsNumberedFull = \layout {
  \gsNumbered
  ragged-right = ##f
  ragged-last = ##f
}
gsNumberedFullInTime = \gsNumberedInTime

%% The warm-up, across the page on one line.
gsWarmUp = \layout {
  \gsNumbered
  ragged-right = ##f
  ragged-last = ##f
  system-count = #1
}

%% The number of a line, at its left.
#(define-markup-command (gs-number layout props text) (string?)
   (interpret-markup layout props (markup #:bold text)))

%% The instruction, as wide as the page.
#(define-markup-command (gs-instruction layout props text) (string?)
   (gs:even-height 2.7 1.4
     (interpret-markup layout (cons '((baseline-skip . 2.7)) props)
       (markup #:italic #:gs-words text))))

%% Lines to write on, clear of the bottom of the page even if the music above is a little higher than estimated.
#(define-markup-command (gs-ruled layout props count) (integer?)
   (let* ((width (ly:output-def-lookup layout 'line-width))
          (lines (map (lambda (n) (make-line-stencil 0.06 0 (* -4.4 (1+ n)) width (* -4.4 (1+ n)))) (iota count))))
     (ly:make-stencil (ly:stencil-expr (apply ly:stencil-add empty-stencil lines))
                      (cons 0 width) (cons (- (+ 3.5 (* 4.4 count))) 0))))

gsExercisePaper = \paper {
  \gsPagePaper
  score-system-spacing = #'((basic-distance . 1) (minimum-distance . 0) (padding . 2.4) (stretchability . 20))
}

%% A sheet of several pages: none with a line alone; our own judgement.
gsExercisePages = \paper {
  \gsExercisePaper
  min-systems-per-page = #3
}

%% The cautions, in small print, before anything is played.
#(define-markup-command (gs-caution layout props text) (string?)
   (gs:even-height 2.2 1.3
     (interpret-markup layout (cons '((font-size . -2) (baseline-skip . 2.2)) props)
       (markup #:gs-words text))))

%% \gs-aim "new" #'(60 66 72): what a line is for, and boxes to tick off its tempi, above it and clear of the line before.
#(define-markup-command (gs-aim layout props text tempi) (string? list?)
   (ly:stencil-add
     (ly:make-stencil '() '(0 . 1) '(-0.2 . 3.4))
     (interpret-markup layout props
       (make-line-markup
         (list (make-hspace-markup 5)
               (make-fontsize-markup -1 (make-italic-markup text))
               (make-hspace-markup 1)
               (make-line-markup
                 (map (lambda (tempo) (make-gs-box-markup (number->string tempo))) tempi)))))))

%% The pages of a term, whose titles say what the heads of pages would.
gsTermPaper = \paper {
  \gsExercisePaper
  oddHeaderMarkup = ##f
  evenHeaderMarkup = ##f
}

%% \gs-term-row "3" "2026-09-21" "Flutter-tongue" "5": a row of the cover page of a term.
#(define-markup-command (gs-term-row layout props week date new lines) (string? string? string? string?)
   (let ((at (lambda (x text)
               (ly:stencil-translate-axis
                 (interpret-markup layout props text) (* x (ly:output-def-lookup layout 'line-width)) X))))
     (ly:stencil-add (at 0 week) (at 0.1 date) (at 0.28 new) (at 0.82 lines)
                     (ly:make-stencil '() '(0 . 1) '(-1.4 . 1.8)))))
