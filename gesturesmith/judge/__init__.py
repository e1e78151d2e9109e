"""What stands against a gesture or a passage: the rules run on it as it would be played."""
