%% Signs at a note: scripts, dynamics. All but those marked are post-events.

%% --- scripts -----------------------------------------------------------------------------------------------------

#(define (gs:over event) (let ((m (ly:music-deep-copy event))) (set! (ly:music-property m 'direction) UP) m))
%% Half a space from a high note's head: closer, a small sign merges with it (our own judgement).
#(define (gs:clear-over event)
   (let ((m (gs:over event)))
     (set! (ly:music-property m 'tweaks) (acons 'padding 0.5 (ly:music-property m 'tweaks '())))
     m))

%% \gsPlus stopped, \gsHalfStopped, \gsOpen: the hand in the bell (SMuFL brassMuteClosed, HalfClosed, Open).
gsPlus = #(gs:clear-over stopped)
gsHalfStopped = #(gs:clear-over halfopen)
gsOpen = #(gs:clear-over open)
%% \gsTrill: the sign alone, over a single note; for tied ones see \gsTrillSpan.
gsTrill = #(gs:clear-over trill)

%% \gsTrillTo d'': the same with a small accidental of the note above beside it: naturals too, to leave no doubt. The
%% pitch is transposed with the music.
#(define (gs:trill-accidental grob pitch)
   (grob-interpret-markup grob
    (make-fontsize-markup -4
      (make-musicglyph-markup
       (assoc-get (ly:pitch-alteration pitch)
                  (append
                   gs:eighth-glyphs
                   '((-1 . "accidentals.flatflat") (-3/4 . "accidentals.mirroredflat.flat") (-1/2 . "accidentals.flat")
                     (-1/4 . "accidentals.mirroredflat") (0 . "accidentals.natural")
                     (1/4 . "accidentals.sharp.slashslash.stem") (1/2 . "accidentals.sharp")
                     (3/4 . "accidentals.sharp.slashslash.stemstemstem") (1 . "accidentals.doublesharp")))
                  "accidentals.natural")))))
#(define (gs:with-second grob sign)
   (let* ((event (event-cause grob))
          (pitch (if (ly:stream-event? event) (ly:event-property event 'gs-high #f) #f)))
     (if (not (ly:pitch? pitch)) sign
         (let ((extent (ly:stencil-extent sign X)))
           (ly:stencil-add
            sign
            (ly:stencil-translate
             (ly:stencil-aligned-to (ly:stencil-aligned-to (gs:trill-accidental grob pitch) X LEFT) Y CENTER)
             (cons (+ (cdr extent) 0.35) (+ 0.4 (interval-center (ly:stencil-extent sign Y))))))))))
%% The letters are over their note, the accidental to its right.
#(define (gs:trill-stencil grob)
   (let ((sign (ly:script-interface::print grob)))
     (ly:make-stencil (ly:stencil-expr (gs:with-second grob sign)) (ly:stencil-extent sign X)
                      (ly:stencil-extent (gs:with-second grob sign) Y))))
gsTrillTo =
#(define-event-function (pitch) (ly:pitch?)
   (let ((event (gs:clear-over #{ \tweak stencil #gs:trill-stencil \trill #})))
     (set! (ly:music-property event 'gs-high) pitch)
     event))

%% \gsDots #2 double, \gsDots #3 triple tonguing: dots over the note (SMuFL doubleTongueAbove, tripleTongueAbove).
#(define (gs:dots-stencil count)
   (lambda (grob)
     (let ((dot (ly:font-get-glyph (ly:grob-default-font grob) "scripts.staccato")))
       (apply ly:stencil-add
              (map (lambda (i) (ly:stencil-translate-axis dot (* 0.62 (- i (/ (1- count) 2))) X)) (iota count))))))
%% Above the staff and well above a high note: beside a sharp, or between two, they would be invisible.
gsDots =
#(define-event-function (count) (integer?)
   (gs:over #{ \tweak stencil #(gs:dots-stencil count)
               \tweak quantize-position ##f
               \tweak staff-padding #0.6
               \tweak padding #1.1
               \staccato #}))

%% \gsBeyond #UP: an arrow from a note upwards, as high as the player can; #DOWN: as low.
#(define (gs:beyond-stencil dir)
   (lambda (grob)
     (let ((path (gs:path (list (cons 0 0) (cons 1.7 0)) #t)))
       (ly:stencil-rotate-absolute
        (ly:stencil-add (make-line-stencil 0.16 0 0 1.0 0) (gs:arrow-head path 1.7 1.0))
        (* dir 90) 0 0))))
gsBeyond =
#(define-event-function (dir) (ly:dir?)
   (let ((m (ly:music-deep-copy
             #{ \tweak stencil #(gs:beyond-stencil dir) \tweak quantize-position ##f \tweak padding #0.35
                \tweak side-relative-direction ##f \tweak toward-stem-shift #0 \trill #})))
     (set! (ly:music-property m 'direction) dir)
     m))

%% \gsFlutter: three slashes on the stem whatever the note value; without a stem, as at a whole note, beyond the head.
%% Clear of the head and of ledger lines across the stem, in the middle of the remaining stem.
#(define (gs:slashes-height grob)
   (let* ((stem (ly:grob-object grob 'stem)) (unit (gs:staff-space grob))
          (dir (ly:grob-property stem 'direction UP))
          (heads (gs:list stem 'note-heads))
          (last (apply max (map (lambda (h) (* dir (gs:position h))) heads)))
          (flag (ly:grob-object stem 'flag))
          (extent (ly:grob-property grob 'Y-extent '(-2.0 . 2.0)))
          (back (if (= dir UP) (- (car extent)) (cdr extent)))  ; from the slash nearest to the end of the stem
          (usual (* dir (ly:stem-tremolo::calc-y-offset grob)))
          (lowest (+ (* 0.5 unit (+ last (gs:past-ledgers last))) (* 0.35 unit) back)))
     (* dir
        (cond ((gs:stemless? stem) (* 0.5 unit (+ last 5.8)))
              ((gs:printed? flag) (max lowest (* 0.5 unit (+ last 5.4))))  ; nearer to the head than to the flag
              ((ly:grob? (ly:grob-object stem 'beam)) (max lowest (- usual (* 0.3 unit))))  ; off a slanting beam
              (else (max lowest usual))))))
%% Half staff spaces from the middle of the last head on a stem to the part of the stem that is clear of head and ledger
%% lines; `position` is counted along the stem.
#(define (gs:past-ledgers position) (max 1 (if (<= position -6) (+ (- -6 position) 0.2) 1)))
#(define (gs:stemless? stem)
   (and (ly:grob? stem) (pair? (gs:list stem 'note-heads)) (gs:get (ly:grob-property stem 'details '()) 'gs-stemless #f)))
#(define (gs:slashes-place grob)
   (let ((stem (ly:grob-object grob 'stem)))
     (if (not (gs:stemless? stem)) 0
         (let* ((head (car (gs:list stem 'note-heads)))
                (column (ly:grob-common-refpoint head stem X)))
           (- (interval-center (ly:grob-extent head column X)) (ly:grob-relative-coordinate stem column X))))))
gsFlutter =
#(make-music 'TremoloEvent 'tremolo-type 4096 'gs-details '((gs-flutter . #t))
   'tweaks `((flag-count . 3) (shape . beam-like) (beam-width . 1.4) (slope . 0.3) (X-offset . ,gs:slashes-place)
              (Y-offset . ,gs:slashes-height)))

%% \gsStrokes #16: repeated in sixteenths: as many strokes as these have flags, minus the note's own flags or beams.
gsStrokes =
#(define-event-function (value) (index?)
   (make-music 'TremoloEvent 'tremolo-type value
     'tweaks `((shape . beam-like) (beam-width . 1.4) (slope . 0.3) (X-offset . ,gs:slashes-place)
               (Y-offset . ,gs:slashes-height))))

%% \gsGraceSlash (before the first of several grace notes): a stroke through its stem and the beginning of the beam.
#(define (gs:slashed-stem grob)
   (let ((stem (ly:stem::print grob)))
     (if (not (ly:stencil? stem)) '()
         (let* ((unit (gs:staff-space grob)) (y (ly:stencil-extent stem Y))
                (up (= UP (ly:grob-property grob 'direction UP)))
                (end (if up (cdr y) (car y))) (way (if up 1 -1)))
           (ly:stencil-add stem
             (make-line-stencil (* 0.13 unit) (* -0.55 unit) (- end (* way 1.25 unit))
                                (* 0.85 unit) (+ end (* way 0.25 unit))))))))
gsGraceSlash = #(gs:look `((Stem . stencil) . ,gs:slashed-stem))

%% \gsFeather #RIGHT { ... } (not a post-event): attacks that speed up, or with #LEFT slow down: one beam that fans
%% out or in.
gsFeather =
#(define-music-function (direction music) (ly:dir? ly:music?)
   #{ \override Beam.grow-direction = #direction
      #music
      \revert Beam.grow-direction #})

%% \gsRatio (before a tuplet): both numbers, m:n for m in the time of n, with a bracket.
gsRatio = {
  \once \override TupletNumber.text = #tuplet-number::calc-fraction-text
  \once \override TupletBracket.bracket-visibility = ##t
}

%% --- dynamics LilyPond has no command for ------------------------------------------------------------------------

%% \gsLevel "sffz": a level by its letters.
gsLevel =
#(define-event-function (text) (string?) (make-music 'AbsoluteDynamicEvent 'text text))
%% \gsNiente (before the note where a hairpin starts): it begins from nothing, or ends in nothing.
gsNiente = \once \override Hairpin.circled-tip = ##t

%% \gsLevelAtEnd (before the place after a note): its level ends with it, and does not extend below what comes next.
gsLevelAtEnd = {
  \once \override DynamicText.self-alignment-X = #RIGHT
  \once \override DynamicText.extra-spacing-width = #'(-2 . 0)
  \once \override DynamicText.extra-spacing-height = #'(-inf.0 . +inf.0)
}

%% \gsTimes "3 times" (at the end of a repeat): over the repeat sign.
gsTimes =
#(define-music-function (text) (string?)
   #{ \once \override Score.TextMark.font-size = #0
      \textEndMark \markup \normal-text \italic #text #})

%% \gsShortHairpin #5 (before the note where a hairpin starts): however short, it has room for levels with that many
%% letters at its ends and about three staff spaces of hairpin between them (our own judgement).
gsShortHairpin =
#(define-music-function (letters) (index?)
   #{ \once \override Hairpin.minimum-length = #(+ 5 (* 0.8 letters)) #})

%% \gsEndLevel (before the level at the very end of a gesture): it stays clear of the level at the beginning of the next
%% ("p" and "pp" would read as "ppp").
gsEndLevel = {
  \once \override DynamicText.extra-spacing-width = #'(-0.3 . 1.8)
  \once \override DynamicText.extra-spacing-height = #'(-inf.0 . +inf.0)
}

%% \gsDraft: the DRAFT stamp, for pages.
gsDraft = \markup \override #'(box-padding . 0.4) \box \bold \larger "DRAFT"
