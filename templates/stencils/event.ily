%% The event behind every spanner of ours, registered as LilyPond's own events are.

#(if (not (ly:make-event-class 'gesture-span-event)) (define-event-class 'gesture-span-event 'span-event))

#(let ((entry '((name . GestureSpanEvent) (types . (post-event gesture-span-event span-event event)))))
   (hashq-set! music-name-to-property-table 'GestureSpanEvent entry)
   (set-object-property! 'GestureSpanEvent 'music-description "a line, span or band of a gesture starts or stops")
   (set! music-descriptions (sort (assq-set! music-descriptions 'GestureSpanEvent entry) alist<?)))

#(for-each
  (lambda (p) (set-object-property! (car p) 'music-type? (cdr p)))
  (list (cons 'gs-details list?) (cons 'gs-kind symbol?) (cons 'gs-low ly:pitch?) (cons 'gs-high ly:pitch?)))
#(set-object-property! 'gs-middle-c 'backend-type? number?)
#(set-object-property! 'gs-middle-c 'backend-doc "Position of middle C where a band begins.")
