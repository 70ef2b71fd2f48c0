"""What is open and how it is kept: the recipe, its file, drafts and versions, the Recipe box."""
