"""Practice material: variants, graded lines, preparations of a line, probes of a technique."""
