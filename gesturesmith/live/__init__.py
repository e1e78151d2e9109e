"""`gesturesmith write`: a composer's text with its verdict, its sketch and its engraving, in a browser on the same
machine.

`joining`, `journal` and `documents` keep what is typed; `view` and `exports` are what the page shows and gives out;
`guard` decides who may ask; `server` is the only part that knows the web. The page itself is in `assets`.
"""
