"""Complete gestures, passages and exercises, and the values that describe how they are played."""
