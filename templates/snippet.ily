\version "2.24.0"
%% A gesture or passage as a cropped picture.

%% With its cairo backend LilyPond makes a PNG of each cropped picture, even if its command line asks for others only.
#(let* ((backend (resolve-module '(lily framework-cairo) #:ensure #f))
        (make (and backend (module-ref backend 'output-stencil #f)))
        (asked? (lambda (format) (member (string-append "--" format) (command-line)))))
   (if (and make (or (asked? "svg") (asked? "pdf")) (not (asked? "png")))
       (module-set! backend 'output-stencil
                    (lambda (name stencil paper formats) (make name stencil paper (delete "png" formats))))))

%% Put before a book: only the cropped picture is made.
gsCropped =
#(define-void-function () ()
   (ly:set-option 'crop #t)
   (ly:set-option 'print-pages #f))

gsSnippetPaper = \paper {
  paper-width = 190\mm
  paper-height = 270\mm
  line-width = 170\mm
  left-margin = 10\mm
  top-margin = 10\mm
  indent = 0
  ragged-right = ##t
  ragged-last = ##t
  tagline = ##f
  oddHeaderMarkup = ##f
  evenHeaderMarkup = ##f
  oddFooterMarkup = ##f
  evenFooterMarkup = ##f
  bookTitleMarkup = ##f
  scoreTitleMarkup = ##f
}

%% Footnotes below the music, in lines of a readable length; `gs-below-width` in staff spaces.
#(define-markup-command (gs-below-music layout props notes) (markup-list?)
   #:properties ((gs-below-width 60))
   (interpret-markup layout
     (cons (list (cons 'line-width gs-below-width) (cons 'baseline-skip 2.6)) props)
     (make-column-markup (cons (make-vspace-markup 0.2) notes))))

%% Cairo rounds the size of a picture to whole points; the padding keeps everything inside.
#(define-markup-command (gs-picture layout props parts) (markup-list?)
   (interpret-markup layout (cons '((baseline-skip . 2)) props)
     (make-pad-around-markup 0.8 (make-column-markup parts))))
