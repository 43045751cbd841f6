"""The build of a piece: its steps, what is done, what is waited for, what was measured."""
