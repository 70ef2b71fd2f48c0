"""Begin: the ways to a first recipe."""
