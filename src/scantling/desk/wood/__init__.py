"""The wood plan: which part comes from which board, what that costs, and how else it could be."""
