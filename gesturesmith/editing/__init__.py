"""What an editor asks about a text and a place in it: pure functions, on any text, however unfinished.

Lines and columns count from 1 in code points, as everywhere; a cursor stands before the character of its column.
"""
