"""Compose: the page on which a recipe is put together, with its forecast."""
