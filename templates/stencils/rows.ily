%% Rows above and below the staff: cents, fingerings, syllables, the direction of the air. Everything in a row of a
%% system has the same baseline.

#(define (gs:row-text-stencil grob)
   (case (gs:get (gs:details grob) 'row 'text)
     ((syllable) (gs:syllable-stencil grob))
     ((breath) (gs:breath-stencil grob))
     (else (gs:tuned-stencil grob))))
#(define (gs:tuned-stencil grob)
   (let* ((details (gs:details grob))
          (text (string-append (gs:tuner-name grob) (gs:get details 'text "")))
          (row (grob-interpret-markup grob (markup #:fontsize -3 #:sans (make-concat-markup (gs:with-signs text))))))
     ;; The same height whatever the letters.
     (ly:make-stencil (ly:stencil-expr row) (ly:stencil-extent row X) '(-0.4 . 1.3))))

%% The note that cents are counted from, as a tuner names it; "" if it is the written one. It is stored as a pitch, so
%% it is transposed with the music.
#(define (gs:tuner-name grob)
   (let* ((event (event-cause grob))
          (pitch (if (ly:stream-event? event) (ly:event-property event 'gs-high #f) #f)))
     (if (not (ly:pitch? pitch)) ""
         (string-append
          (list-ref '("C" "D" "E" "F" "G" "A" "B") (ly:pitch-notename pitch))
          (assoc-get (ly:pitch-alteration pitch) '((-1 . "♭♭") (-1/2 . "♭") (1/2 . "♯") (1 . "♯♯")) "")
          " "))))

%% A text as a list of markups, with the signs of the music font for "Bb ", ♯ and ♭ (or other signs).
#(define gs:text-signs
   (let ((flat (markup #:concat (#:hspace 0.1 #:fontsize -2 #:raise 0.45 #:flat)))
         (sharp (markup #:concat (#:hspace 0.1 #:fontsize -3 #:raise 0.5 #:sharp))))
     `(("Bb " . ,(markup #:concat ("B" flat #:hspace 0.4))) ("♭" . ,flat) ("♯" . ,sharp))))
#(define* (gs:with-signs text #:optional (signs gs:text-signs))
   (let ((hit (fold (lambda (sign best)
                      (let ((at (string-contains text (car sign))))
                        (if (and at (or (not best) (< at (car best)))) (cons at sign) best)))
                    #f signs)))
     (cond ((string-null? text) '())
           ((not hit) (list text))
           (else (append (list (substring text 0 (car hit)) (cddr hit))
                         (gs:with-signs (substring text (+ (car hit) (string-length (cadr hit)))) signs))))))

#(define (gs:cents-text cents)
   (string-append (cond ((> cents 0) "+") ((< cents 0) "−") (else "±")) (number->string (abs cents)) " ¢"))

%% \gsCents #-14: the distance from the tempered note, as a tuner shows it, in a row above. \gsTuned cs'' #-30: the
%% same with the name of the note the tuner shows, if that is not the written one.
gsCents =
#(define-event-function (cents) (integer?)
   (gs:sign 'cents `((text . ,(gs:cents-text cents)) (cents . ,cents))))
gsTuned =
#(define-event-function (pitch cents) (ly:pitch? integer?)
   (let ((event (gs:sign 'cents `((text . ,(gs:cents-text cents))))))
     (set! (ly:music-property event 'gs-high) pitch)
     event))

%% \gsFingering "F 1-2", "Bb 0", "F 0 / Bb 1": side and valves, in a row below; Bb prints a flat sign.
gsFingering =
#(define-event-function (text) (string?)
   (gs:sign 'fingering `((text . ,text))))

%% \gsSyllable "sh": spoken or breathed, below the note or rest, upright as in a vocal part.
gsSyllable =
#(define-event-function (text) (string?)
   (gs:sign 'syllable `((row . syllable) (text . ,text))))
#(define (gs:syllable-stencil grob)
   (let ((text (grob-interpret-markup grob (markup #:fontsize -1 (gs:get (gs:details grob) 'text "")))))
     (ly:make-stencil (ly:stencil-expr text) (ly:stencil-extent text X) '(-0.5 . 1.5))))

%% \gsInhale, \gsExhale: air in or out: an arrow to or from a bar, which represents the lips.
gsInhale = #(gs:sign 'breath '((row . breath) (way . in)))
gsExhale = #(gs:sign 'breath '((row . breath) (way . out)))
#(define (gs:breath-stencil grob)
   (let* ((in? (eq? 'in (gs:get (gs:details grob) 'way 'in)))
          (lips (if in? 1.1 -1.1)) (from (if in? -1.1 -0.8)) (tip (if in? 0.8 1.1))
          (bar (make-line-stencil 0.2 lips -0.7 lips 0.7))
          (shaft (make-line-stencil 0.13 from 0 (- tip 0.4) 0))
          (head (make-path-stencil (list 'moveto tip 0 'lineto (- tip 0.7) 0.42 'lineto (- tip 0.7) -0.42 'closepath)
                                   0.02 1 1 #t)))
     (ly:stencil-add bar shaft head)))
