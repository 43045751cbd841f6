"""All pieces of the folder, and how to begin another."""
