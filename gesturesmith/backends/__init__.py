"""What prints a score, a room for each format."""
