%% The engraver that makes our grobs, one in each voice; and the contexts it is added to.

%% How a kind of span is printed: grob, whether it ends at a note or lasts to the end of its leaf, and the priority of
%% its row. A length is printed above a footnote mark, whether the mark is alone or above words.
#(define gs:kinds
   '((contour GestureContour #t #f)
     (band GestureBand #f #f)
     (frame GestureFrame #f #f)
     (goes-on GestureGoesOn #f #f)
     (trill GestureAbove #f 370)
     (hand GestureAbove #t 380)
     (turn GestureAbove #t 420)
     (span GestureAbove #f 440)
     (length GestureAbove #f 1200)))
#(define (gs:grob-of kind) (cadr (assq kind gs:kinds)))
#(define (gs:ends-at-note? kind) (caddr (assq kind gs:kinds)))
#(define (gs:row-priority kind) (cadddr (assq kind gs:kinds)))

%% The end of a leaf that begins now; of a grace note, the beginning of the next main note.
#(define (gs:end-of-leaf now length)
   (if (= 0 (ly:moment-grace now))
       (ly:moment-add now length)
       (ly:make-moment (+ 1/100000 (ly:moment-main now)))))

#(define (gs:set-bound! spanner side grob)
   (if (null? (ly:spanner-bound spanner side)) (ly:spanner-set-bound! spanner side grob)))

#(define (gs:add! spanner name grob) (ly:pointer-group-interface::add-grob spanner name grob))

#(define (gs:detail! grob key value) (ly:grob-set-nested-property! grob (list 'details key) value))

%% Marks a head that is a point of a line, so that it can be found in a picture; its other attributes stay.
#(define (gs:mark-point! head)
   (let ((attributes (ly:grob-property head 'output-attributes '())))
     (if (not (assq 'class attributes))
         (ly:grob-set-property! head 'output-attributes (acons 'class "gs-point" attributes)))))

#(define (gs:grace? column)
   (let ((when (if (ly:grob? column) (ly:grob-property column 'when #f) #f)))
     (and (ly:moment? when) (not (= 0 (ly:moment-grace when))))))

%% Space between the heads of two columns, for a piece of line or after one.
#(define (gs:make-room! engraver from-column from to-column to)
   (let ((room (ly:engraver-make-grob engraver 'GestureRoom (car from))))
     (ly:grob-set-property! room 'details `((from . ,from) (to . ,to)))
     ;; A grace note is so close to its note that a line between them would be invisible.
     (if (gs:grace? from-column)
         (ly:grob-set-property! room 'springs-and-rods ly:spanner::set-spacing-rods))
     (ly:spanner-set-bound! room LEFT from-column)
     (ly:spanner-set-bound! room RIGHT to-column)))

%% What was written on a note for its head. LilyPond also puts it there, but later than it is needed here.
#(define (gs:tweak-head! head)
   (for-each
    (lambda (tweak)
      (let ((path (car tweak)))
        (if (and (pair? path) (eq? 'NoteHead (car path)))
            (if (pair? (cdr path)) (ly:grob-set-nested-property! head (cdr path) (cdr tweak))
                (ly:grob-set-property! head (cdr path) (cdr tweak))))))
    (let ((event (event-cause head))) (if (ly:stream-event? event) (ly:event-property event 'tweaks '()) '()))))

%% What noteheads request in their details: a height, brackets, no accidental.
#(define (gs:see-head! engraver head in-band?)
   (gs:tweak-head! head)
   (let* ((details (ly:grob-property head 'details '())) (height (gs:get details 'gs-height #f)))
     (if height (ly:grob-set-property! head 'staff-position height))
     (if (or (gs:get details 'gs-stops #f) (gs:get details 'gs-ghost #f))
         (let ((bracket (ly:engraver-make-grob engraver 'GestureBracket head)))
           (gs:add! bracket 'note-heads head)
           ;; The edge of the band is between the bracket and a bar line.
           (if in-band? (ly:grob-set-property! bracket 'extra-spacing-width '(-0.1 . 2.4)))
           (gs:detail! bracket 'round (gs:get details 'gs-ghost #f))
           (gs:detail! head 'gs-bracket bracket)))))

%% LilyPond omits the accidentals of heads whose style is `harmonic` if `harmonicAccidentals` is off: while accidentals
%% are made, a bare head has that style, so it does not affect the notes after it either. Returns a procedure that
%% undoes the changes, or #f.
#(define (gs:bare! head context)
   (if (gs:get (ly:grob-property head 'details '()) 'gs-bare #f)
       (let* ((style (ly:grob-property head 'style))
              (staff (ly:context-find context 'Staff))
              (printed? (ly:context-property context 'harmonicAccidentals #t))  ; otherwise another voice has done it
              (own? (eq? staff (ly:context-property-where-defined context 'harmonicAccidentals #f))))
         (ly:grob-set-property! head 'style 'harmonic)
         (if printed? (ly:context-set-property! staff 'harmonicAccidentals #f))
         (lambda ()
           (ly:grob-set-property! head 'style style)
           (cond ((not printed?) #f)
                 (own? (ly:context-set-property! staff 'harmonicAccidentals #t))
                 (else (ly:context-unset-property staff 'harmonicAccidentals)))))
       #f))

%% Three slashes need a longer stem if it has a flag or crosses ledger lines. In staff spaces; our own judgement.
#(define (gs:room-for-slashes! tremolo heads)
   (let ((stem (ly:grob-object tremolo 'stem))
         (ledgers (apply max 0 (map (lambda (h) (* 0.5 (- (abs (gs:position h)) 6))) heads))))
     (if (and (gs:get (gs:details tremolo) 'gs-flutter #f) (ly:grob? stem))
         (begin
          (gs:detail! stem 'lengths (map (lambda (l) (+ l (max 0 (- ledgers 0.5)))) '(4.2 7.0 7.4 8.2 9.0)))
          (gs:detail! stem 'beamed-minimum-free-lengths (map (lambda (l) (+ l ledgers)) '(1.83 1.5 1.25)))))))

#(define (gs:engraver context)
   (let ((active '())          ; (kind . spanner) that have begun
         (fresh '())           ; (kind . spanner) begun now
         (ending '())          ; (kind . spanner) that end at the next note
         (waiting '())         ; (moment kind . spanner) that last to that moment
         (due '())             ; (kind . spanner) that last to the present
         (rows '())            ; (spanner . row) or (kind . row)
         (said '())            ; (word . grob) that said it, newest first
         (starts '()) (stops '()) (signs '()) (words '()) (mark #f)
         (leaf ZERO-MOMENT)    ; length of the latest leaf of this step
         (heads '()) (made '()) (undo '()) (column #f) (slashes '())
         (points '())          ; (line column . heads): the latest point of each line
         (stopped #f))         ; (column . heads): where a line stopped, until something follows

     (define (musical) (ly:context-property context 'currentMusicalColumn))
     (define (command) (ly:context-property context 'currentCommandColumn))
     (define (now) (ly:context-current-moment context))

     (define (new-row! engraver cause direction priority)
       (let ((row (ly:engraver-make-grob engraver 'GestureRow cause)))
         (ly:grob-set-property! row 'direction direction)
         (ly:grob-set-property! row 'outside-staff-priority priority)
         row))

     ;; The row of a new spanner: that of one of its kind that ends here, or a new one.
     (define (row-of! engraver event kind)
       (let* ((before (assq kind (append ending due))) (row (and before (assq-ref rows (cdr before)))))
         (or row
             (let ((row (new-row! engraver event UP (gs:row-priority kind))))
               ;; A line over the staff must not read as a staff line; its ends turn down.
               (if (eq? kind 'length)
                   (begin (ly:grob-set-property! row 'staff-padding 2.2)
                          (ly:grob-set-property! row 'outside-staff-padding 1.0)
                          (ly:grob-set-property! row 'outside-staff-horizontal-padding 0.6)))
               row))))

     (define (start! engraver event)
       (let* ((kind (ly:event-property event 'gs-kind))
              (spanner (ly:engraver-make-grob engraver (gs:grob-of kind) event)))
         (if (eq? kind 'band) (gs:detail! spanner 'middle-c (ly:context-property context 'middleCPosition -6)))
         (if (eq? kind 'frame)
             (for-each (lambda (direction)
                         (let ((edge (ly:engraver-make-grob engraver 'GestureFrameEdge event)))
                           (ly:grob-set-property! edge 'direction direction)
                           (gs:add! spanner 'edges edge)))
                       (list DOWN UP)))
         (if (gs:row-priority kind)
             (let ((row (row-of! engraver event kind)))
               (let ((before (assq kind ending)))
                 (if before (gs:detail! spanner 'joined (gs:get (gs:details (cdr before)) 'right ""))))
               (ly:axis-group-interface::add-element row spanner)
               (set! rows (acons spanner row rows))))
         (set! active (acons kind spanner active))
         (set! fresh (cons (car active) fresh))))

     (define (begin! spanner grob)
       (gs:set-bound! spanner LEFT grob)
       (for-each (lambda (one) (gs:set-bound! one LEFT grob)) (gs:list spanner 'edges)))

     (define (close! spanner grob)
       (gs:set-bound! spanner RIGHT grob)
       (for-each (lambda (one) (gs:set-bound! one RIGHT grob)) (gs:list spanner 'edges))
       ;; Rods to a column where no line ends would be lost.
       (for-each (lambda (one) (gs:set-bound! one RIGHT (if (ly:grob? (musical)) (musical) grob)))
                 (gs:list spanner 'rooms))
       (let ((row (assq-ref rows spanner)))
         (if row (ly:spanner-set-bound! row RIGHT grob))))

     ;; Without a note, a sign of the row lasts to the end of the silence; a line ends there.
     (define (close-later! p)
       (if (gs:row-priority (car p))
           (begin
            (gs:detail! (cdr p) 'to-end #t)
            (set! waiting (acons (gs:get (ly:grob-property (cdr p) 'details '()) 'until (now)) p waiting)))
           (close! (cdr p) (musical))))

     (define (stop! engraver event until)
       (let* ((kind (ly:event-property event 'gs-kind)) (hit (assq kind active)))
         (if hit
             (begin
              (set! active (remove (lambda (p) (eq? p hit)) active))
              ;; What begins and ends at one leaf only has that leaf's width.
              (if (and (gs:ends-at-note? kind) (not (and (gs:row-priority kind) (memq hit fresh))))
                  (begin
                   (gs:detail! (cdr hit) 'until until)
                   (set! ending (cons hit ending)))
                  (begin
                   (if (gs:ends-at-note? kind) (gs:detail! (cdr hit) 'to-end #t))
                   (set! waiting (acons until hit waiting))))
              (ly:engraver-announce-end-grob engraver (cdr hit) event))
             (ly:event-warning event "a ~a ends that did not start" kind))))

     ;; A band during which the clef changes continues at its new height.
     (define (follow-clef! engraver)
       (let* ((hit (assq 'band active)) (c (ly:context-property context 'middleCPosition -6)))
         (if (and hit (not (assq 'band fresh)) (not (= c (gs:get (ly:grob-property (cdr hit) 'details) 'middle-c c))))
             (let ((spanner (ly:engraver-make-grob engraver 'GestureBand (event-cause (cdr hit)))))
               (close! (cdr hit) (command))
               (ly:spanner-set-bound! spanner LEFT (command))
               (gs:detail! spanner 'middle-c c)
               (set! active (acons 'band spanner (remove (lambda (p) (eq? p hit)) active)))))))

     (define (sign! engraver event)
       (let ((kind (ly:event-property event 'gs-kind)))
         (case kind
           ((edge) (set! made (acons kind (ly:engraver-make-grob engraver 'GestureEdge event) made)))
           ((second)
            (let ((grob (ly:engraver-make-grob engraver 'GestureSecond event)))
              (gs:detail! grob 'middle-c (ly:context-property context 'middleCPosition -6))
              (set! made (acons 'edge grob made))))
           ((word) (set! words (cons event words)))
           ((title)
            (let ((frame (assq 'frame active)))
              (if frame
                  (gs:detail! (gs:last (gs:list (cdr frame) 'edges)) 'text
                              (gs:get (ly:event-property event 'gs-details) 'text "")))))
           ;; A cue shows what others play; their own part says how.
           ((mark) (if (not (eq? 'CueVoice (ly:context-name context))) (set! mark event)))
           (else
            (let ((text (ly:engraver-make-grob engraver 'GestureRowText event))
                  (row (or (assq-ref rows kind)
                           (let ((row (new-row! engraver event (if (memq kind '(cents breath)) UP DOWN)
                                                (case kind ((cents) 390) ((breath) 385) ((syllable) 180) (else 200)))))
                             (set! rows (acons kind row rows))
                             row))))
              (ly:axis-group-interface::add-element row text)
              (gs:set-bound! row LEFT (musical))
              (ly:spanner-set-bound! row RIGHT (musical))
              (set! made (acons kind text made)))))))

     ;; The texts of a mark, with their numbers in the score.
     (define (numbered details)
       (let ((texts (gs:get details 'notes '())))
         (if (null? texts) details `((text . ,(gs:numbers-text (map gs:number-of! texts)))))))

     ;; Words and a footnote mark at one note are one grob; a mark alone is above everything else.
     (define (words! engraver)
       (let* ((details (lambda (event) (ly:event-property event 'gs-details)))
              (lines (map details (reverse words)))
              (noted? (and mark (assq 'texts (details mark))))
              (grob (ly:engraver-make-grob engraver (if noted? 'GestureNotedWords 'GestureWords)
                                           (or mark (car words)))))
         (gs:detail! grob 'lines lines)
         (gs:detail! grob 'said said)
         (if mark (gs:detail! grob 'mark (numbered (details mark))))
         (let ((frame (or (assq 'frame active) (assq 'frame (map cdr waiting)))))
           (if (null? lines)
               (begin
                (ly:grob-set-property! grob 'outside-staff-priority (if frame 1040 1100))
                (ly:grob-set-property! grob 'outside-staff-padding 0.9)
                (ly:grob-set-property! grob 'outside-staff-horizontal-padding 1.2)))
           (if frame
               (let ((room (ly:engraver-make-grob engraver 'GestureFrameRoom (cdr frame))))
                 ;; Beside them the next frame begins.
                 (ly:grob-set-property! grob 'outside-staff-horizontal-padding 0.2)
                 (gs:detail! room 'words grob)
                 (ly:spanner-set-bound! room LEFT (musical))
                 (gs:add! (cdr frame) 'rooms room))))
         (for-each (lambda (part) (set! said (acons (car part) grob said)))
                   (append-map (lambda (line) (gs:get line 'parts '())) lines))
         (set! made (acons 'words grob made))))

     ;; A sign finds its heads once all of this moment exist.
     (define (settle! sign)
       (let ((grob (cdr sign)))
         (case (car sign)
           ((edge)
            (if (null? heads) (ly:grob-suicide! grob)
                (for-each (lambda (h) (gs:add! grob 'note-heads h)) heads)))
           ((words)
            (if column
                (begin (ly:grob-set-parent! grob X column) (gs:add! grob 'side-support-elements column))))
           (else
            (cond ((pair? heads) (ly:grob-set-parent! grob X (gs:last heads)))
                  (column (ly:grob-set-parent! grob X column)))))))

     (define (touched-lines)
       (map cdr (filter (lambda (p) (eq? 'contour (car p))) (append active ending))))

     (define (extend-lines! engraver)
       (for-each
        (lambda (line)
          (for-each (lambda (h) (gs:mark-point! h) (gs:add! line 'note-heads h)) (reverse heads))
          (let ((before (assq-ref points line)))
            (if (and before (not (eq? (car before) (musical))))
                (gs:make-room! engraver (car before) (cdr before) (musical) heads)))
          (set! points (acons line (cons (musical) heads) (alist-delete line points eq?))))
        (touched-lines)))

     ;; The brackets of a head where a line stops stay clear of what comes next; spacing alone does not ensure that
     ;; where a line break is possible in between.
     (define (keep-from-stop! engraver)
       (if (and stopped column)
           (begin (gs:make-room! engraver (car stopped) (cdr stopped) (musical) heads) (set! stopped #f)))
       (if (any (lambda (h) (gs:get (ly:grob-property h 'details '()) 'gs-bracket #f)) heads)
           (set! stopped (cons (musical) heads))))

     (make-engraver
      (listeners
       ((rhythmic-event engraver event) (set! leaf (ly:event-property event 'length ZERO-MOMENT)))
       ((gesture-span-event engraver event)
        (if (= START (ly:event-property event 'span-direction))
            (set! starts (cons event starts))
            (set! stops (acons event (gs:end-of-leaf (now) leaf) stops))))
       ((gesture-sign-event engraver event) (set! signs (cons event signs))))
      ((process-music engraver)
       ;; What lasts to a note ends before its grace notes.
       (let ((over (filter (lambda (w) (>= (ly:moment-main (now)) (ly:moment-main (car w)))) waiting)))
         (for-each (lambda (w) (close! (cddr w) (command))) over)
         (set! due (map cdr over))
         (set! waiting (lset-difference eq? waiting over)))
       (follow-clef! engraver)
       ;; One ends before another begins; what begins and ends at one leaf begins first.
       (let* ((ends (reverse stops))
              (before (filter (lambda (e) (assq (ly:event-property (car e) 'gs-kind) active)) ends)))
         (for-each (lambda (e) (stop! engraver (car e) (cdr e))) before)
         (for-each (lambda (e) (start! engraver e)) (reverse starts))
         (for-each (lambda (e) (stop! engraver (car e) (cdr e))) (lset-difference eq? ends before)))
       (for-each (lambda (e) (sign! engraver e)) (reverse signs))
       (if (or mark (pair? words)) (words! engraver))
       (set! words '()) (set! mark #f)
       (set! starts '()) (set! stops '()) (set! signs '()))
      (acknowledgers
       ((note-head-interface engraver grob source)
        (set! heads (cons grob heads))
        (gs:see-head! engraver grob (pair? (assq 'band (append active (map cdr waiting)))))
        (let ((back (gs:bare! grob context))) (if back (set! undo (cons back undo)))))
       ((note-column-interface engraver grob source)
        (set! column grob)
        (for-each (lambda (p)
                    (begin! (cdr p) grob)
                    (let ((row (assq-ref rows (cdr p)))) (if row (gs:set-bound! row LEFT grob))))
                  fresh)
        (for-each (lambda (p) (close! (cdr p) grob)) ending)
        (if (and (pair? heads) (assq 'band fresh))
            (let ((pad (ly:engraver-make-grob engraver 'GesturePad (car heads))))
              (for-each (lambda (h) (gs:add! pad 'note-heads h)) heads))))
       ;; Beside a line a script moves out of the way, as words do, except inside the staff.
       ((script-interface engraver grob source)
        (if (and (pair? (touched-lines))
                 (not (number? (ly:grob-property grob 'outside-staff-priority #f)))
                 (not (eq? #t (ly:grob-property grob 'quantize-position #f))))
            (begin
             (ly:grob-set-property! grob 'outside-staff-priority 30)
             (ly:grob-set-property! grob 'outside-staff-padding 0.3))))
       ;; Below a line there is room for a hairpin and the levels at its ends, whatever the spacing of the score.
       ((hairpin-interface engraver grob source)
        (if (pair? (touched-lines))
            (ly:grob-set-property! grob 'minimum-length (max 7 (ly:grob-property grob 'minimum-length 0)))))
       ((stem-tremolo-interface engraver grob source) (set! slashes (cons grob slashes))))
      ((stop-translation-timestep engraver)
       (for-each (lambda (back) (back)) undo)
       (for-each (lambda (t) (gs:room-for-slashes! t heads)) slashes)
       (keep-from-stop! engraver)
       (if (pair? heads) (extend-lines! engraver))
       ;; Lines between two heads at one height slant by these.
       (for-each (lambda (p)
                   (let ((cents (gs:get (gs:details (cdr p)) 'cents #f)))
                     (if cents (for-each (lambda (h) (gs:detail! h 'cents cents)) heads))))
                 made)
       (for-each settle! made)
       (for-each (lambda (p)
                   (begin! (cdr p) (musical))
                   (let ((row (assq-ref rows (cdr p)))) (if row (gs:set-bound! row LEFT (musical)))))
                 fresh)
       (for-each (lambda (p) (if (null? (ly:spanner-bound (cdr p) RIGHT)) (close-later! p))) ending)
       (set! points (filter (lambda (p) (memq (car p) (map cdr active))) points))
       (set! fresh '()) (set! ending '()) (set! heads '()) (set! made '()) (set! undo '()) (set! column #f)
       (set! slashes '())
       (set! leaf ZERO-MOMENT))
      ((finalize engraver)
       (for-each (lambda (w) (close! (cddr w) (command))) waiting)
       (for-each
        (lambda (p)
          (ly:warning "gesturesmith: a ~a is not ended; it ends with the music" (car p))
          (close! (cdr p) (command)))
        active)))))

%% Cues show our signs too, in addition to what they usually show. Footnotes are counted through the score.
#(define (gs:score-engraver context)
   (make-engraver
    ((initialize engraver)
     (gs:begin-notes!)
     (let ((types (ly:context-property context 'quotedCueEventTypes '())))
       (ly:context-set-property! context 'quotedCueEventTypes
                                 (lset-union eq? types '(gesture-span-event gesture-sign-event)))))))

%% If this file is included a second time there is nothing left to add.
gsVoices =
#(if (defined? 'gs:ready) #{ \with { } #} #{ \with { \consists #gs:engraver } #})
gsScores =
#(if (defined? 'gs:ready) #{ \with { } #} #{ \with { \consists #gs:score-engraver } #})
#(define gs:ready #t)

\layout {
  \context { \Global \grobdescriptions #all-grob-descriptions }
  \context { \Score \gsScores }
  \context { \Voice \gsVoices }
  \context { \CueVoice \gsVoices }
}
