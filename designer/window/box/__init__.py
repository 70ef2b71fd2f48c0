"""Recipe box: the page of all recipes, their versions and backups."""
