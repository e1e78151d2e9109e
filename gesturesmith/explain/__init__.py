"""What is known of a technique, a rule, a limit, a mistake or of difficulty, in words."""
