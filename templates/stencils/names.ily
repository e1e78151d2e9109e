%% Saves and restores the note names of a score that includes this file.
#(define gs:kept-note-names '())
gsKeepNoteNames =
#(define-void-function () ()
   (set! gs:kept-note-names (cons pitchnames gs:kept-note-names)))
gsRestoreNoteNames =
#(define-void-function () ()
   (set! pitchnames (car gs:kept-note-names))
   (set! gs:kept-note-names (cdr gs:kept-note-names))
   (ly:parser-set-note-names pitchnames))
