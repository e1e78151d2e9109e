%% The events of our spanners and signs, registered like LilyPond's own. An event class has the hyphenated name of
%% its music event.

#(define (gs:event! music class parent description)
   (if (not (ly:make-event-class class)) (define-event-class class parent))
   (let ((entry `((name . ,music) (types . (post-event ,class ,parent event)))))
     (hashq-set! music-name-to-property-table music entry)
     (set-object-property! music 'music-description description)
     (set! music-descriptions (sort (assq-set! music-descriptions music entry) alist<?))))

#(gs:event! 'GestureSpanEvent 'gesture-span-event 'span-event "a line, span or band of a gesture starts or stops")
#(gs:event! 'GestureSignEvent 'gesture-sign-event 'music-event "a sign of a gesture at a note")

#(for-each
  (lambda (p) (set-object-property! (car p) 'music-type? (cdr p)))
  (list (cons 'gs-details list?) (cons 'gs-kind symbol?) (cons 'gs-low ly:pitch?) (cons 'gs-high ly:pitch?)))

#(define (gs:start kind details)
   (make-music 'GestureSpanEvent 'span-direction START 'gs-kind kind 'gs-details details))
#(define (gs:stop kind)
   (make-music 'GestureSpanEvent 'span-direction STOP 'gs-kind kind))
#(define (gs:sign kind details)
   (make-music 'GestureSignEvent 'gs-kind kind 'gs-details details))
