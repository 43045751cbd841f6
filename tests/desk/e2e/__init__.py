"""Browser tests; a package, so that what is shared in it ends with its last test."""
