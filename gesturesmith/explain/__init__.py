"""Explains techniques, rules, limits, mistakes and difficulty in words."""
