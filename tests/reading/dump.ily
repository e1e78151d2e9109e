\version "2.24.0"
%% LilyPond's output, one line of JSON for every printed grob: glyphs and texts come from the stencil drawn, positions
%% from where it is drawn. Included before the document (`-dinclude-settings`); changes no music.

#(define rd:port (open-file "reading.jsonl" "w"))
#(define rd:numbers (make-hash-table))
#(define rd:contexts (make-hash-table))
#(define rd:count 0)
#(define (rd:number thing)
   (or (hashq-ref rd:numbers thing)
       (begin (set! rd:count (1+ rd:count)) (hashq-set! rd:numbers thing rd:count) rd:count)))
#(define (rd:original grob)
   (let ((original (ly:grob-original grob))) (if (ly:grob? original) original grob)))
#(define (rd:id grob) (rd:number (rd:original grob)))

%% --- JSON ---------------------------------------------------------------------------------------------------------
#(define (rd:json thing)
   (cond ((eq? thing #t) "true")
         ((not thing) "null")
         ((and (integer? thing) (exact? thing)) (number->string thing))
         ((and (number? thing) (exact? thing)) (format #f "\"~a\"" thing))
         ((number? thing) (if (or (inf? thing) (nan? thing)) "null" (number->string (/ (round (* 1000 thing)) 1000))))
         ((symbol? thing) (rd:json (symbol->string thing)))
         ((string? thing)
          (string-append "\""
            (string-concatenate
             (map (lambda (c) (cond ((char=? c #\") "\\\"") ((char=? c #\\) "\\\\")
                                    ((char<? c #\space) " ") (else (string c))))
                  (string->list thing)))
            "\""))
         ((vector? thing)
          (string-append "{" (string-join (map (lambda (p) (string-append (rd:json (car p)) ":" (rd:json (cdr p))))
                                               (vector->list thing)) ",") "}"))
         ((list? thing) (string-append "[" (string-join (map rd:json thing) ",") "]"))
         (else "null")))

%% --- what a stencil draws: (x y kind what), in the grob's own staff spaces --------------------------------------
#(define (rd:drawn expr x y)
   (cond ((not (pair? expr)) '())
         ((eq? (car expr) 'translate-stencil)
          (rd:drawn (third expr) (+ x (car (second expr))) (+ y (cdr (second expr)))))
         ((eq? (car expr) 'named-glyph) (list (list x y 'glyph (third expr))))
         ((eq? (car expr) 'utf-8-string) (list (list x y 'text (third expr))))
         ((eq? (car expr) 'draw-line) (list (list (+ x (third expr)) (+ y (fourth expr)) 'shape 'draw-line)))
         ((eq? (car expr) 'path)
          (list (list (+ x (rd:first-number (third expr) 0)) y 'path (if (and (> (length expr) 5) (list-ref expr 5)) "filled" "open"))))
         ((memq (car expr) '(polygon round-filled-box draw-line dashed-line circle ellipse partial-ellipse)) (list (list x y 'shape (car expr))))
         (else
          (let loop ((rest (cdr expr)) (found '()))
            (if (not (pair? rest)) found
                (loop (cdr rest) (append found (if (pair? (car rest)) (rd:drawn (car rest) x y) '()))))))))

%% Where a path begins, from the left.
#(define (rd:first-number path otherwise)
   (if (and (list? path) (pair? path) (pair? (cdr path)) (number? (cadr path))) (cadr path) otherwise))
#(define (rd:sans? expr)
   (cond ((not (pair? expr)) #f)
         ((eq? (car expr) 'utf-8-string) (and (string-contains (string-downcase (second expr)) "sans") #t))
         (else (any rd:sans? (filter pair? (if (list? expr) (cdr expr) '()))))))

#(define (rd:printed grob)
   (let ((stencil (ly:grob-property grob 'stencil #f)))
     (if (and (ly:stencil? stencil)
              (not (eq? #t (ly:grob-property grob 'transparent #f)))
              (not (null? (ly:stencil-expr stencil))))
         stencil #f)))

%% Pieces of a spanner on both sides of a line break keep the heads of their own line; ends are those of the whole.
%% --- links ----------------------------------------------------------------------------------------------------------
#(define (rd:list grob name)
   (let ((array (ly:grob-object grob name)))
     (if (ly:grob-array? array) (ly:grob-array->list array) '())))
#(define (rd:ids grobs) (map rd:id grobs))
#(define (rd:one grob name)
   (let ((other (ly:grob-object grob name))) (if (ly:grob? other) (rd:id other) #f)))
#(define (rd:name grob) (grob::name grob))
#(define (rd:heads-of thing)
   (cond ((not (ly:grob? thing)) '())
         ((eq? (rd:name thing) 'NoteHead) (list thing))
         ((eq? (rd:name thing) 'NoteColumn)
          (let ((rest (ly:grob-object thing 'rest)))
            (append (rd:list thing 'note-heads) (if (ly:grob? rest) (list rest) '()))))
         ((memq (rd:name thing) '(Rest)) (list thing))
         ((eq? (rd:name thing) 'Stem) (rd:list thing 'note-heads))
         (else '())))
#(define (rd:bound grob side)
   (let ((bound (ly:spanner-bound (rd:original grob) side))) (if (ly:grob? bound) bound #f)))
#(define (rd:when item)
   (let* ((column (if (ly:item? item) (ly:item-get-column item) #f))
          (own (if (ly:grob? column) (ly:grob-property column 'when #f) #f))
          (when (if (or (ly:moment? own) (not (ly:grob? column))) own
                    (ly:grob-property (rd:original column) 'when #f))))
     (if (ly:moment? when) (list (ly:moment-main when) (ly:moment-grace when)) #f)))
#(define (rd:bounds grob)
   (list (cons 'from (rd:ids (rd:heads-of (rd:bound grob LEFT))))
         (cons 'to (rd:ids (rd:heads-of (rd:bound grob RIGHT))))
         (cons 'starts (rd:when (rd:bound grob LEFT)))
         (cons 'ends (rd:when (rd:bound grob RIGHT)))))

#(define (rd:more grob name)
   (case name
     ((NoteHead) (list (cons 'stem (rd:one grob 'stem)) (cons 'dots (rd:one grob 'dot))
                       (cons 'size (ly:grob-property grob 'font-size 0))))
     ((Rest) (list (cons 'dots (rd:one grob 'dot))))
     ((Dots) (list (cons 'count (ly:grob-property grob 'dot-count 0))))
     ((Stem) (list (cons 'heads (rd:ids (rd:list grob 'note-heads))) (cons 'flag (rd:one grob 'flag))
                   (cons 'beam (rd:one grob 'beam)) (cons 'beaming (map length
                     (let ((b (ly:grob-property grob 'beaming '(() . ()))))
                       (if (pair? b) (list (if (list? (car b)) (car b) '()) (if (list? (cdr b)) (cdr b) '()))
                           '(() ())))))))
     ((Beam) (list (cons 'stems (rd:ids (rd:list grob 'stems)))
                   (cons 'feather (ly:grob-property grob 'grow-direction 0))))
     ((TupletNumber)
      (let ((bracket (ly:grob-object (rd:original grob) 'bracket)))
        (if (ly:grob? bracket)
            (list (cons 'over (rd:ids (append-map rd:heads-of (rd:list (rd:original bracket) 'note-columns)))))
            '())))
     ((Tie Slur) (rd:bounds grob))
     ((GestureContour) (list (cons 'heads (rd:ids (rd:list grob 'note-heads)))))
     ((GestureBracket) (list (cons 'heads (rd:ids (rd:list grob 'note-heads)))
                             (cons 'round (if (assq-ref (ly:grob-property grob 'details '()) 'round) 1 0))))
     ((GestureRowText)
      (list (cons 'above (eqv? UP (ly:grob-property (ly:grob-parent grob Y) 'direction #f)))
            (cons 'sans (let ((stencil (rd:printed grob))) (and stencil (rd:sans? (ly:stencil-expr stencil)))))))
     ((BarLine) (list (cons 'glyph (ly:grob-property grob 'glyph-name #f))))
     ((Hairpin) (cons (cons 'grows (ly:grob-property grob 'grow-direction 0)) (rd:bounds grob)))
     ((MultiMeasureRest TextSpanner GestureFrame GestureGoesOn GestureBand GestureAbove OttavaBracket VoltaBracket) (rd:bounds grob))
     (else '())))

#(define rd:in-staff
   '(NoteHead Accidental AccidentalCautionary Clef Rest KeySignature KeyCancellation Dots CueClef CueEndClef))
#(define rd:wanted
   (append rd:in-staff
     '(ClefModifier TimeSignature BarLine Tie Stem Flag Beam TupletNumber Slur MultiMeasureRest
       MultiMeasureRestNumber MetronomeMark RehearsalMark TextSpanner TextScript DynamicText Hairpin LyricText OttavaBracket VoltaBracket
       GestureContour GestureBracket GestureFrame GestureGoesOn GestureBand GestureAbove GestureRowText GestureWords GestureNotedWords Script
       GestureEdge Fermata TextMark GestureSecond MultiMeasureRestScript MultiMeasureRestText StemTremolo InstrumentName BarNumber)))

#(define (rd:staff-position grob)
   (let ((symbol (ly:grob-object grob 'staff-symbol)))
     (if (ly:grob? symbol)
         (let ((common (ly:grob-common-refpoint grob symbol Y)))
           (/ (- (ly:grob-relative-coordinate grob common Y) (ly:grob-relative-coordinate symbol common Y))
              (* 0.5 (ly:staff-symbol-staff-space symbol))))
         #f)))

#(define (rd:line grob system place)
   (let* ((name (rd:name grob))
          (stencil (rd:printed grob))
          (context (or (hashq-ref rd:contexts (rd:original grob)) '(#f #f #f)))
          (x (ly:grob-relative-coordinate grob system X))
          (extent (ly:stencil-extent stencil X)))
     (format rd:port "~a\n"
       (rd:json
        (list->vector
         (append
          (list (cons 'name name) (cons 'id (rd:id grob)) (cons 'score (first place)) (cons 'run (second place))
                (cons 'system (third place)) (cons 'staff (first context)) (cons 'voice (second context))
                (cons 'voice-name (third context))
                (cons 'x (+ x (if (interval-empty? extent) 0 (car extent))))
                (cons 'right (+ x (if (interval-empty? extent) 0 (cdr extent))))
                (cons 'y (if (memq name rd:in-staff) (rd:staff-position grob) #f))
                (cons 'when (if (ly:item? grob) (rd:when grob) #f))
                (cons 'drawn (rd:drawn (ly:stencil-expr stencil) 0 0)))
          (rd:more grob name)))))))

#(define rd:systems (make-hash-table))
#(define (rd:dump system)
   (let* ((root (rd:original system))
          (run (rd:number root))
          (n (1+ (hashq-ref rd:systems root 0)))
          (score (ly:output-def-lookup (ly:grob-layout system) 'readerScore -1)))
     (hashq-set! rd:systems root n)
     (for-each
      (lambda (grob)
        (if (and (memq (rd:name grob) rd:wanted) (rd:printed grob))
            (rd:line grob system (list score run n))))
      (ly:grob-array->list (ly:grob-object system 'all-elements)))
     (force-output rd:port)))

#(define (rd:engraver context)
   (make-engraver
    (acknowledgers
     ((grob-interface engraver grob source)
      (let* ((here (ly:translator-context source))
             (staff (ly:context-find here 'Staff))
             (voice (ly:context-find here 'Bottom)))
        (hashq-set! rd:contexts grob
          (list (if (ly:context? staff) (rd:number staff) #f)
                (if (ly:context? voice) (rd:number voice) #f)
                (if (ly:context? voice) (ly:context-id voice) #f))))))))

\layout {
  \context {
    \Score
    \consists #rd:engraver
    \override System.after-line-breaking = #rd:dump
  }
}
