"""Recipe files, the catalogue and the store of a brewer."""
