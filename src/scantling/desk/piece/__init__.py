"""The page of a piece: its picture, its sizes and choices, its parts, what the checks found."""
