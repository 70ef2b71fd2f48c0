"""The recipe: a tree of frozen values, the edits that change it and the checks on it."""
