%% Our grobs, registered like LilyPond's own. A second inclusion finds them already registered.

#(define* (gs:describe! name class interfaces properties #:optional (objects '()))
   (if (not (assq name all-grob-descriptions))
       (set! all-grob-descriptions
             (cons ((@@ (lily) completize-grob-entry)
                    `(,name ,@properties (details . ())
                            (meta . ((class . ,class) (object-callbacks . ,objects) (interfaces . ,interfaces)))))
                   all-grob-descriptions))))

#(gs:describe! 'GestureContour 'Spanner
   '(font-interface line-spanner-interface staff-symbol-referencer-interface)
   `((stencil . ,gs:contour-stencil)
     (Y-extent . ,gs:contour-height)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-contour")))))

%% There is always room for a piece of line between two points, also after a line break.
#(gs:describe! 'GestureRoom 'Spanner '()
   `((springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . ,gs:room-length)
     (minimum-length-after-break . ,gs:room-after-break)
     (Y-extent . #f)
     (X-extent . #f)))

#(gs:describe! 'GestureAbove 'Spanner
   '(font-interface text-interface staff-symbol-referencer-interface)
   `((stencil . ,gs:above-stencil)
     (font-size . 0)
     (Y-extent . ,gs:above-height)
     (springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . ,gs:above-room)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-above")))))

%% Groups signs at the same height above or below the staff.
#(gs:describe! 'GestureRow 'Spanner
   '(axis-group-interface outside-staff-interface side-position-interface)
   `((axes . (,Y))
     (side-axis . ,Y)
     (direction . ,UP)
     (padding . 0.5)
     (staff-padding . 0.9)
     (outside-staff-priority . 400)
     (outside-staff-padding . 0.5)
     ;; The end of a stem or a flag beside a number keeps it lower, not only one above it.
     (outside-staff-horizontal-padding . 0.5)
     (vertical-skylines . ,grob::always-vertical-skylines-from-element-stencils)
     (X-extent . ,ly:axis-group-interface::width)
     (Y-extent . ,axis-group-interface::height)
     (Y-offset . ,side-position-interface::y-aligned-side))
   `((pure-Y-common . ,ly:axis-group-interface::calc-pure-y-common)
     (pure-relevant-grobs . ,ly:axis-group-interface::calc-pure-relevant-grobs)))

#(gs:describe! 'GestureRowText 'Item
   '(font-interface self-alignment-interface text-interface)
   `((stencil . ,gs:row-text-stencil)
     (self-alignment-X . ,CENTER)
     (parent-alignment-X . ,CENTER)
     (X-offset . ,ly:self-alignment-interface::aligned-on-x-parent)
     (X-align-on-main-noteheads . #t)
     (extra-spacing-width . (-0.3 . 0.3))
     (output-attributes . ((class . "gs-row")))
     (Y-extent . ,grob::always-Y-extent-from-stencil)))

%% Words and marks are above the staff, like texts; what they say is only known late (see words.ily).
#(define gs:text-above
   `((stencil . ,gs:words-stencil)
     (X-extent . ,gs:words-width)
     (Y-extent . ,gs:words-height)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (direction . ,UP)
     (extra-spacing-width . (+inf.0 . -inf.0))
     (outside-staff-priority . 450)
     (outside-staff-horizontal-padding . 1.4)
     (padding . 0.3)
     (staff-padding . 0.5)
     (slur-padding . 0.5)
     (avoid-slur . around)
     (script-priority . 200)
     (side-axis . ,Y)
     (self-alignment-X . #f)
     (parent-alignment-X . #f)
     (X-align-on-main-noteheads . #t)
     (X-offset . ,ly:self-alignment-interface::aligned-on-x-parent)
     (Y-offset . ,side-position-interface::y-aligned-side)))

#(define gs:above-interfaces
   '(font-interface outside-staff-interface self-alignment-interface side-position-interface text-interface))

#(gs:describe! 'GestureWords 'Item gs:above-interfaces gs:text-above)

%% With footnotes at the bottom of the page.
#(gs:describe! 'GestureNotedWords 'Item (cons 'footnote-interface gs:above-interfaces)
   `((footnote . #t)
     (footnote-text . ,gs:expected-notes)
     (numbering-assertion-function . ,gs:numbering)
     ,@gs:text-above))

#(gs:describe! 'GestureBand 'Spanner '(staff-symbol-referencer-interface)
   `((stencil . ,gs:band-stencil)
     (layer . -2)
     (Y-extent . ,gs:band-extent)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-band")))))

#(gs:describe! 'GestureFrame 'Spanner '(staff-symbol-referencer-interface)
   `((stencil . ,gs:frame-stencil)
     (X-extent . ,gs:frame-width)
     (Y-extent . (-2 . 2))
     (output-attributes . ((class . "gs-frame")))))

%% Above all that belongs to the notes in the frame, below words on the frame itself.
#(gs:describe! 'GestureFrameEdge 'Spanner '(font-interface text-interface outside-staff-interface staff-symbol-referencer-interface)
   `((stencil . ,gs:frame-edge-stencil)
     (direction . ,UP)
     ;; Only once the words are known.
     (Y-offset . ,(ly:make-unpure-pure-container gs:frame-edge-offset 0))
     (outside-staff-priority . 1050)
     (outside-staff-padding . 0.55)
     (Y-extent . ,(ly:make-unpure-pure-container ly:grob::stencil-height '(-0.1 . 0.1)))
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-frame")))))

#(gs:describe! 'GestureFrameRoom 'Spanner '()
   `((springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . ,gs:frame-room)
     (Y-extent . #f)
     (X-extent . #f)))

#(gs:describe! 'GestureGoesOn 'Spanner '(font-interface text-interface staff-symbol-referencer-interface)
   `((stencil . ,gs:goes-on-stencil)
     (Y-extent . ,gs:goes-on-height)
     (springs-and-rods . ,ly:spanner::set-spacing-rods)
     (minimum-length . ,gs:goes-on-room)
     (vertical-skylines . ,grob::unpure-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-goes-on")))))

%% White space before the first note of a band, so that its edge does not read as a second bar line.
#(gs:describe! 'GesturePad 'Item '(staff-symbol-referencer-interface)
   `((X-offset . ,gs:pad-offset)
     (X-extent . (-1.4 . 0))
     (Y-extent . (-2 . 2))))

#(gs:describe! 'GestureEdge 'Item '(staff-symbol-referencer-interface)
   `((stencil . ,gs:edge-stencil)
     (X-offset . ,gs:edge-offset)
     (extra-spacing-width . (-0.4 . 0.4))
     (Y-extent . ,grob::always-Y-extent-from-stencil)
     (vertical-skylines . ,grob::always-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-edge")))))

#(gs:describe! 'GestureSecond 'Item '(font-interface staff-symbol-referencer-interface)
   `((stencil . ,gs:second-stencil)
     (X-offset . ,gs:second-offset)
     (extra-spacing-width . (-0.3 . 0.4))
     (Y-extent . ,grob::always-Y-extent-from-stencil)
     (vertical-skylines . ,grob::always-vertical-skylines-from-stencil)
     (output-attributes . ((class . "gs-second")))))

#(gs:describe! 'GestureBracket 'Item '(staff-symbol-referencer-interface)
   `((stencil . ,gs:bracket-stencil)
     (extra-spacing-width . (-0.1 . 1.3))
     (extra-spacing-height . (-inf.0 . +inf.0))
     (Y-extent . ,grob::always-Y-extent-from-stencil)
     (output-attributes . ((class . "gs-bracket")))))
