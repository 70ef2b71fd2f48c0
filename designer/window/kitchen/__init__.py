"""Kitchen: the page of vessels, cupboard and pack sizes."""
