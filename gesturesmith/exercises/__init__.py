"""What is practised: variants, graded lines, what is played before a line, probes of a technique."""
