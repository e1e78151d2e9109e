"""What several rules share, and other packages use too: limits, names, air and effort, fixes."""
