%% Words and footnote marks above a note. Their text depends on where systems and pages end, which is only known after
%% line and page breaking. Nothing may use the stencil before that: until then its height is the largest possible, and
%% its width that in the middle of a system.

%% \gsWord "lazily": words in italics. Several at one note are stacked in the order written.
gsWord =
#(define-event-function (text) (string?) (gs:sign 'word `((text . ,text))))
%% \gsCancel "ord.": cancels what a word began; it looks the same.
gsCancel = #gsWord

%% \gsSay #'((WORD FIRST LATER) ...): for each technique in force, FIRST if WORD has not been printed on this
%% system yet, otherwise LATER; either may be "". Everything is printed on one line.
gsSay =
#(define-event-function (parts) (list?) (gs:sign 'word `((parts . ,parts))))

%% \gsMark "1": a footnote mark, over the middle of its note and above the words there.
gsMark =
#(define-event-function (text) (string?) (gs:sign 'mark `((text . ,text))))

%% \gsNote #'("TEXT" ...): the same, numbered through the score: see `\gsFootnotes`.
gsNote =
#(define-event-function (texts) (list?) (gs:sign 'mark `((notes . ,texts))))

%% \gsPageMark #'((TEXT . COUNTS) ...): a mark with the number of its text on this page, counted from 1 in order of
%% appearance; each text is printed once at the bottom of the page. COUNTS: whether the page breaker reserves room for
%% the text here; otherwise room is reserved once on each page (`gs:common-notes`).
gsPageMark =
#(define-event-function (texts) (list?) (gs:sign 'mark `((texts . ,texts))))

%% --- how they look -----------------------------------------------------------------------------------------------

#(define (gs:word text) (markup #:fontsize -0.5 #:italic text))
#(define gs:mark-middle 0.65)
#(define (gs:mark text)
   (markup #:translate (cons gs:mark-middle 0) #:fontsize -4 #:gs-circled text))
#(define (gs:words mark lines)
   (let ((below (markup #:override '(baseline-skip . 2.1) (make-column-markup lines))))
     (cond ((not mark) below)
           ((null? lines) mark)
           (else (markup #:override '(baseline-skip . 2.3) #:column (mark below))))))

%% --- what they say -----------------------------------------------------------------------------------------------

%% One line: its text, or the parts that `told?` leaves. The engraver stores the previous grob with the same word in
%% the details.
#(define (gs:line-text grob line told?)
   (let ((said (gs:get (ly:grob-property grob 'details '()) 'said '())))
     (string-join
      (delete-duplicates
       (remove string-null?
               (append (list (gs:get line 'text ""))
                       (map (lambda (part) (if (told? (assoc-ref said (car part))) (caddr part) (cadr part)))
                            (gs:get line 'parts '())))))
      ", ")))

#(define (gs:word-stencil-where grob told? numbers)
   (let* ((details (ly:grob-property grob 'details '()))
          (mark (gs:get details 'mark #f))
          (lines (remove string-null?
                         (map (lambda (line) (gs:line-text grob line told?)) (gs:get details 'lines '())))))
     (if (or mark (pair? lines))
         (grob-interpret-markup
          grob
          (gs:words (and mark (gs:mark (or (gs:get mark 'text #f) (gs:numbers-text (numbers (gs:get mark 'texts '()))))))
                    (map gs:word lines)))
         empty-stencil)))

#(define (gs:numbers-text numbers) (string-join (map number->string (sort numbers <)) ", "))
#(define (gs:unknown-numbers texts) (map (lambda (t) 1) texts))

#(define (gs:words-stencil grob)
   (let ((system (ly:grob-system grob)))
     (gs:word-stencil-where
      grob
      (lambda (before) (and before (eq? system (ly:grob-system before))))
      (lambda (texts) (gs:get (ly:grob-property grob 'details '()) 'numbers '())))))
%% What is only repeated at the beginning of a system has room there, and must not reserve any elsewhere.
%% LilyPond ends a system no earlier than what is in it: words end before its bar line, which in a score goes on from
%% staff to staff.
#(define gs:words-clear 1.4)
#(define (gs:words-width grob)
   (let ((x (ly:stencil-extent (gs:word-stencil-where grob (lambda (before) before) gs:unknown-numbers) X)))
     (if (interval-empty? x) x (cons (car x) (+ (cdr x) gs:words-clear)))))
%% During line breaking: what would be printed here if a line went from one column to another.
#(define (gs:words-pure-height grob start end)
   (ly:stencil-extent
    (gs:word-stencil-where
     grob
     (lambda (before) (and before (<= start (car (ly:grob-spanned-column-rank-interval before)))))
     gs:unknown-numbers)
    Y))
#(define gs:words-height (ly:make-unpure-pure-container ly:grob::stencil-height gs:words-pure-height))

%% --- footnotes of a page -----------------------------------------------------------------------------------------

%% (text . number), newest first, on the current page; texts that are on nearly every page; whether page breaking is
%% done.
#(define gs:page-numbers '())
#(define gs:common-notes '())
#(define gs:laying-out #f)

%% Footnotes with their numbers, one below the other.
#(define-markup-command (gs-notes layout props notes) (list?)
   (if (null? notes) empty-stencil
       (stack-stencils Y DOWN (ly:output-def-lookup layout 'footnote-padding 0.2)
                       (map (lambda (n)
                              (interpret-markup layout props (make-gs-note-markup (number->string (cdr n)) (car n))))
                            notes))))

#(define (gs:note-texts grob) (gs:get (gs:get (ly:grob-property grob 'details '()) 'mark '()) 'texts '()))

%% The room for a mark's footnotes during page breaking.
#(define (gs:expected-notes grob)
   (make-gs-notes-markup (map (lambda (t) (cons (car t) 1)) (filter cdr (gs:note-texts grob)))))

%% LilyPond calls this for each footnote of a page in order, with 0 for the first, before it sets any of them; if it
%% reads the property again, it treats the procedure as a callback.
#(define (gs:numbering grob)
   (define (number counter)
     (if (ly:grob? counter) number
         (let ((texts (map car (gs:note-texts grob))) (before gs:page-numbers))
           (set! gs:laying-out #t)
           (if (= 0 counter) (begin (set! gs:page-numbers '()) (set! before '())))
           (for-each
            (lambda (text)
              (if (not (assoc text gs:page-numbers))
                  (set! gs:page-numbers (acons text (1+ (length gs:page-numbers)) gs:page-numbers))))
            texts)
           (gs:detail! grob 'numbers (map (lambda (t) (assoc-ref gs:page-numbers t)) texts))
           (ly:grob-set-property! grob 'footnote-text
                                  (make-gs-notes-markup
                                   (reverse (list-head gs:page-numbers
                                                       (- (length gs:page-numbers) (length before)))))))))
   number)

%% --- page turns ----------------------------------------------------------------------------------------------------

%% \gsPlaysOn: a bar line where no page should end. It only has an effect on our own pages.
gsPlaysOn = {}

%% \gsRestNext: a rest follows, and no line should begin with it if avoidable.
gsRestNext = \once \override Score.NonMusicalPaperColumn.line-break-penalty = #1000
