\version "2.24.0"
%% Common to pages and snippets: staves with and without meter, footnote texts, small markups.
%% Sizes are relative (font steps, staff spaces), so that they follow the staff size.

%% A staff without meter: no automatic bar lines, and every accidental is printed and applies to its note only.
gsNoMeter = \with {
  \omit TimeSignature
  \accidentalStyle forget
  autoBeaming = ##f
  extraNatural = ##f
}

%% A staff with bars. Cautionary accidentals after those of the previous bar are in parentheses.
gsBarred = \with {
  \accidentalStyle modern-cautionary
  autoBeaming = ##f
  extraNatural = ##f
}

%% Outside the staff a script is well away from its head: a tenuto close to it would read as a ledger line (our own
%% judgement). Inside, LilyPond puts it between two lines.
#(define (gs:off-ledger-lines grob)
   (let* ((parent (ly:grob-parent grob X))
          (heads (if (grob::has-interface parent 'note-column-interface) (gs:list parent 'note-heads) (list parent)))
          (dir (ly:grob-property grob 'direction UP))
          (outermost (apply max -100 (map (lambda (h) (* dir (gs:position h))) heads))))
     (if (>= outermost 2)
         (ly:grob-set-property! grob 'padding (max 0.45 (ly:grob-property grob 'padding 0))))))

%% Note values: ordinary spacing, a little wider than usual because lines and words need room.
gsPicture = \layout {
  indent = 0
  short-indent = 0
  \context {
    \Score
    \omit BarNumber
    \override Footnote.annotation-line = ##f
    \override Footnote.stencil = ##f
    \override MetronomeMark.outside-staff-padding = #0.9  % so that words below do not touch it; our own judgement
    \override SpacingSpanner.spacing-increment = #2.2
    \override Hairpin.minimum-length = #7
    %% A level is also below the end of a stem beside it: otherwise the stem would read as part of the letter.
    \override DynamicLineSpanner.outside-staff-horizontal-padding = #0.6
    \override Script.before-line-breaking = #gs:off-ledger-lines
    %% A slur stays clear of the stem of a flat at its end.
    \override Slur.details.accidental-collision = #60
    \override Slur.details.extra-encompass-collision-distance = #1.5
    \override Slur.details.extra-encompass-free-distance = #0.8
    \override SpacingSpanner.base-shortest-duration = #(ly:make-moment 1/16)
  }
}

%% A part: silent bars become one rest with their number.
gsPart = {
  \set Score.skipBars = ##t
  \override Staff.MultiMeasureRest.expand-limit = #1
}

%% \gsBarNumbers #12: bars are numbered at the beginning of each line, the first one is 12.
gsBarNumbers =
#(define-music-function (first) (index?)
   #{ \set Score.currentBarNumber = #first
      \override Score.BarNumber.stencil = #ly:text-interface::print #})

%% Free time: equal times take equal space.
gsPictureInTime = \layout {
  \gsPicture
  \context {
    \Score
    proportionalNotationDuration = #(ly:make-moment 1/12)
    \override SpacingSpanner.uniform-stretching = ##t
  }
}

%% Another scale, in whole notes per place. The shortest note value changes with it; otherwise places would become wider.
gsPlace =
#(define-scheme-function (place) (rational?)
   #{ \with {
        proportionalNotationDuration = #(ly:make-moment place)
        \override SpacingSpanner.base-shortest-duration = #(ly:make-moment (* 3/4 place))
      } #})

#(define-markup-command (gs-stamp layout props text) (string?)
   (interpret-markup layout props
     (markup #:column (#:override '(box-padding . 0.4) #:box #:bold #:larger text #:vspace 0.3))))
