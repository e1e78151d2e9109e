"""Findings on a gesture or passage: the rules applied to it as it would be played."""
