%% The grobs and the engraver that makes them, registered as LilyPond's own are; nothing else changes.

#(define (gs:describe! name properties)
   (if (not (assq name all-grob-descriptions))
       (set! all-grob-descriptions
             (cons ((@@ (lily) completize-grob-entry) (cons name properties)) all-grob-descriptions))))

#(gs:describe! 'GestureContour
   `((stencil . ,gs:contour-stencil)
     (Y-extent . ,gs:contour-height)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-contour")))
     (details . ())
     (meta . ((class . Spanner)
              (interfaces . (line-spanner-interface staff-symbol-referencer-interface spanner-interface))))))

%% Between two points there is always room for a piece of line.
#(gs:describe! 'GestureRoom
   `((springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . 4.2)
     (Y-extent . #f)
     (X-extent . #f)
     (meta . ((class . Spanner) (interfaces . (spanner-interface))))))

#(gs:describe! 'GestureAbove
   `((stencil . ,gs:above-stencil)
     (direction . ,UP)
     (font-size . 0)
     (Y-offset . ,side-position-interface::y-aligned-side)
     (Y-extent . ,gs:above-height)
     (side-axis . ,Y)
     (staff-padding . 1.0)
     (padding . 0.4)
     (outside-staff-priority . 400)
     (springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . 4)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-above")))
     (details . ())
     (meta . ((class . Spanner)
              (interfaces . (side-position-interface outside-staff-interface font-interface text-interface
                             staff-symbol-referencer-interface spanner-interface))))))

#(gs:describe! 'GestureBand
   `((stencil . ,gs:band-stencil)
     (layer . -2)
     (Y-extent . #f)
     (output-attributes . ((class . "gs-band")))
     (details . ())
     (meta . ((class . Spanner) (interfaces . (staff-symbol-referencer-interface spanner-interface))))))

#(define (gs:grob-of kind)
   (case kind ((contour) 'GestureContour) ((band) 'GestureBand) (else 'GestureAbove)))

%% Contours and turns end at a note; the others reach on until the next column begins.
#(define (gs:ends-at-note? kind) (memq kind '(contour turn hand)))

#(define (gs:engraver context)
   (let ((active '())       ; kind -> spanner
         (fresh '())        ; started now, without a left bound yet
         (ending '())       ; ends at the note that comes now
         (waiting '())      ; ended with the last leaf, right bound comes with the next column
         (starts '()) (stops '())
         (last-column #f) (heads '()))
     (define (column) (ly:context-property context 'currentMusicalColumn))
     (define (bound! spanner side grob)
       (if (null? (ly:spanner-bound spanner side)) (ly:spanner-set-bound! spanner side grob)))
     (define (close-waiting!)
       (for-each (lambda (s) (bound! s RIGHT (ly:context-property context 'currentCommandColumn))) waiting)
       (set! waiting '()))
     (make-engraver
      (listeners
       ((gesture-span-event engraver event)
        (if (= START (ly:event-property event 'span-direction))
            (set! starts (cons event starts))
            (set! stops (cons event stops)))))
      ((process-music engraver)
       (close-waiting!)
       (let ((now-stops (reverse stops)) (now-starts (reverse starts)))
         (define (stop! event)
           (let* ((kind (ly:event-property event 'gs-kind)) (hit (assq kind active)))
             (if hit
                 (begin
                  (set! active (remove (lambda (p) (eq? p hit)) active))
                  (if (gs:ends-at-note? kind)
                      (set! ending (cons (cdr hit) ending))
                      (set! waiting (cons (cdr hit) waiting)))
                  (ly:engraver-announce-end-grob engraver (cdr hit) event))
                 (ly:event-warning event "a ~a ends that did not start" kind))))
         (define (start! event)
           (let* ((kind (ly:event-property event 'gs-kind))
                  (spanner (ly:engraver-make-grob engraver (gs:grob-of kind) event)))
             (if (eq? kind 'band)
                 (ly:grob-set-property! spanner 'gs-middle-c (ly:context-property context 'middleCPosition -6)))
             (set! fresh (cons (cons kind spanner) fresh))
             (set! active (cons (cons kind spanner) active))))
         ;; A line that ends here ends before one that starts; what starts and ends at one leaf starts first.
         (let ((before (filter (lambda (e) (assq (ly:event-property e 'gs-kind) active)) now-stops)))
           (for-each stop! before)
           (for-each start! now-starts)
           (for-each stop! (lset-difference eq? now-stops before))))
       (set! starts '()) (set! stops '()))
      (acknowledgers
       ((note-head-interface engraver grob source)
        (set! heads (cons grob heads))
        (let ((height (gs:get (ly:grob-property grob 'details '()) 'gs-height #f)))
          (if height (ly:grob-set-property! grob 'staff-position height))))
       ((note-column-interface engraver grob source)
        (for-each (lambda (p) (bound! (cdr p) LEFT grob)) fresh)
        (for-each (lambda (s) (bound! s RIGHT grob)) ending))
       ((rest-interface engraver grob source)
        #f))
      ((stop-translation-timestep engraver)
       (let ((lines (append (filter-map (lambda (p) (and (eq? 'contour (car p)) (cdr p))) active)
                            (filter (lambda (s) (eq? 'GestureContour (grob::name s))) ending))))
         (if (and (pair? heads) (pair? lines))
             (begin
              (for-each
               (lambda (line)
                 (for-each (lambda (head)
                             (ly:grob-set-property! head 'output-attributes '((class . "gs-point")))
                             (ly:pointer-group-interface::add-grob line 'note-heads head))
                           heads))
               lines)
              (if (and last-column (not (eq? last-column (column)))
                       (any (lambda (l) (not (memq l (map cdr fresh)))) lines))
                  (let ((room (ly:engraver-make-grob engraver 'GestureRoom (car heads))))
                    ;; An accidental takes its place out of the room before its head.
                    (if (any (lambda (h) (ly:grob? (ly:grob-object h 'accidental-grob))) heads)
                        (ly:grob-set-property! room 'minimum-length 5.4))
                    (ly:spanner-set-bound! room LEFT last-column)
                    (ly:spanner-set-bound! room RIGHT (column))))
              (set! last-column (column)))))
       (for-each (lambda (p) (bound! (cdr p) LEFT (column))) fresh)
       (for-each (lambda (s) (bound! s RIGHT (column))) ending)
       (set! fresh '()) (set! ending '()) (set! heads '()))
      ((finalize engraver)
       (close-waiting!)
       (for-each
        (lambda (p)
          (ly:warning "gesturesmith: a ~a is not ended; it ends with the music" (car p))
          (bound! (cdr p) RIGHT (ly:context-property context 'currentCommandColumn)))
        active)
       (set! active '())))))

%% The second time this file is included there is nothing left to add.
gsVoices =
#(if (defined? 'gs:ready) #{ \with { } #} #{ \with { \consists #gs:engraver } #})
#(define gs:ready #t)

\layout {
  \context { \Global \grobdescriptions #all-grob-descriptions }
  \context { \Voice \gsVoices }
}
