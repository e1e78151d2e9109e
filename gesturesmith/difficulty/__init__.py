"""How hard a gesture is, 0 to 100, and what makes it so."""
