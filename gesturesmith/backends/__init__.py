"""Output formats of a score, one package each."""
