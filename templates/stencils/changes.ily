%% What changes within music, or marks a place of it: tempo, rehearsal marks.

%% A tempo: words before it ("" for none), the note value counted (2 for a quarter, with dots), and its number per minute.
#(define-markup-command (gs-tempo-of layout props words log dots number) (string? integer? integer? string?)
   (let ((mark (list (markup #:smaller #:general-align Y DOWN #:note-by-number log dots 1)
                     (markup #:hspace 0.4) "=" (markup #:hspace 0.4) number)))
     (interpret-markup layout props
       (if (string-null? words) (make-concat-markup mark)
           (make-line-markup (list (make-bold-markup words) (make-concat-markup `("(" ,@mark ")"))))))))
#(define-markup-command (gs-tempo layout props words number) (string? string?)
   (interpret-markup layout props (make-gs-tempo-of-markup words 2 0 number)))

gsTempo =
#(define-music-function (words number) (string? string?)
   #{ \tempo \markup \normal-text \gs-tempo #words #number #})

%% The same in another note value: \gsTempoOf "" 2 1 "48" in dotted quarters.
gsTempoOf =
#(define-music-function (words log dots number) (string? integer? integer? string?)
   #{ \tempo \markup \normal-text \gs-tempo-of #words #log #dots #number #})

%% Words alone, if nothing is counted in beats.
gsTempoWords =
#(define-music-function (words) (string?)
   #{ \tempo \markup \normal-text \bold #words #})

%% \gsGradually "accel." ##f: the tempo changes from here to \gsGraduallyEnd; at its end the tempo reached, or nothing (##f).
%% It belongs to a voice of its own, of skips: a voice has only one such line at a time.
gsGradually =
#(define-event-function (words reached) (string? scheme?)
   (let ((word (markup #:normal-text #:italic words)))
     #{ \tweak style #'dashed-line
        \tweak font-shape #'upright
        \tweak bound-details.left.text #word
        \tweak bound-details.left.stencil-align-dir-y #CENTER
        \tweak bound-details.left-broken.text #(markup #:normal-text #:italic (string-append "(" words ")"))
        \tweak bound-details.left-broken.stencil-align-dir-y #CENTER
        \tweak bound-details.right.text #(or reached #f)
        \tweak bound-details.right.stencil-align-dir-y #CENTER
        \tweak bound-details.right.attach-dir #LEFT
        \tweak bound-details.right.padding #1
        \tweak dash-period #1.8
        \tweak after-line-breaking #ly:spanner::kill-zero-spanned-time
        \tweak outside-staff-priority #900
        \startTextSpan #}))
gsGraduallyEnd = #(make-music 'TextSpanEvent 'span-direction STOP)

%% \gsRehearsal "A": a rehearsal mark.
gsRehearsal =
#(define-music-function (text) (string?)
   #{ \mark \markup \normal-text \override #'(box-padding . 0.4) \box \bold #text #})
