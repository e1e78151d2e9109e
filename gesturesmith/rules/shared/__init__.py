"""What several rules have in common, and other rooms read as well: limits, names, air and effort, fixes."""
