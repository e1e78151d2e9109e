"""The handbook: its pages, made from the code and from the text beside them; DEVELOPERS.md says how."""
