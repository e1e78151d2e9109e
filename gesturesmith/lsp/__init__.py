"""The language server: what `editing` and the checker say, in the Language Server Protocol (version 3.17)."""
