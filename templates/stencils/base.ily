%% What all stencils share: reading details, arrays and places of grobs.

#(use-modules (srfi srfi-1))

%% Composers may name a part `first` or `last`, so the library functions of those names are not used here.
#(define (gs:last list) (car (last-pair list)))

#(define (gs:get details key default)
   (let ((found (assq key details))) (if found (cdr found) default)))

%% The details written with the event, then those of the grob.
#(define (gs:details grob)
   (let ((event (event-cause grob)))
     (append (if (ly:stream-event? event) (ly:event-property event 'gs-details '()) '())
             (ly:grob-property grob 'details '()))))

#(define (gs:list grob name)
   (let ((array (ly:grob-object grob name)))
     (if (ly:grob-array? array) (ly:grob-array->list array) '())))

#(define (gs:printed? grob)
   (and (ly:grob? grob)
        (not (eq? #t (ly:grob-property grob 'transparent #f)))
        (let ((stencil (ly:grob-property grob 'stencil #f)))
          (and (ly:stencil? stencil) (not (ly:stencil-empty? stencil))))))

#(define (gs:staff-space grob)
   (let ((staff (ly:grob-object grob 'staff-symbol)))
     (if (ly:grob? staff) (ly:staff-symbol-staff-space staff) 1)))

#(define (gs:position head) (ly:grob-property head 'staff-position 0))

%% The pieces of a broken spanner in order; an unbroken one is its own single piece.
#(define (gs:pieces grob)
   (let* ((whole (if (ly:grob? (ly:grob-original grob)) (ly:grob-original grob) grob))
          (pieces (ly:spanner-broken-into whole)))
     (if (null? pieces) (list grob) pieces)))
#(define (gs:first-piece? grob) (eq? grob (car (gs:pieces grob))))
#(define (gs:last-piece? grob) (eq? grob (gs:last (gs:pieces grob))))

%% Height of `other` over the origin of `grob`.
#(define (gs:y grob other)
   (let ((common (ly:grob-common-refpoint grob other Y)))
     (- (ly:grob-relative-coordinate other common Y) (ly:grob-relative-coordinate grob common Y))))

%% When a grob sounds, in whole notes. A grace note counts as a little before its main note: enough for the order.
#(define (gs:when grob)
   (let* ((column (if (grob::has-interface grob 'paper-column-interface) grob (ly:item-get-column grob)))
          (when (ly:grob-property column 'when #f)))
     (if (ly:moment? when)
         (+ (ly:moment-main when) (* 1/1000 (ly:moment-grace when)))
         0)))

%% The union of the horizontal extents of some grobs, measured from `other`; #f where nothing is printed.
#(define (gs:reach grobs other)
   (let ((extents (remove interval-empty? (map (lambda (g) (ly:grob-extent g other X)) (filter gs:printed? grobs)))))
     (if (null? extents) #f
         (cons (apply min (map car extents)) (apply max (map cdr extents))))))

%% The extent of what is printed at a bound: its bar line, clef and so on; if there is nothing, of its column.
#(define (gs:printed-reach bound system)
   (or (gs:reach (remove (lambda (g) (memq (grob::name g) '(BarNumber SpanBar SpanBarStub))) (gs:list bound 'elements)) system)
       (ly:grob-robust-relative-extent bound system X)))

#(define (gs:grob-named? name) (lambda (g) (eq? name (grob::name g))))

#(define (gs:accidentals heads)
   (filter ly:grob? (map (lambda (h) (ly:grob-object h 'accidental-grob)) heads)))
#(define (gs:dots heads)
   (filter ly:grob? (map (lambda (h) (ly:grob-object h 'dot)) heads)))
