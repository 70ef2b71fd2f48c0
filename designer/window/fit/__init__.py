"""Fit: the page that fits a recipe to a kitchen."""
