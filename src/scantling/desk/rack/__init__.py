"""The rack: boards as pictures, and everything else in the shop file as tables a maker may paste into."""
