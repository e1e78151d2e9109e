"""Complete gestures, passages and exercises, and how the instrument plays them."""
