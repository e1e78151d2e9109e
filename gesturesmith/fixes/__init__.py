"""What would work: changes proposed, written as edits of lines, tried out, and made."""
