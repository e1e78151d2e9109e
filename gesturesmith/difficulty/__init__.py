"""How hard a gesture is, from 0 to 100, and why."""
