"""Widgets and models that every page uses; they know neither a page nor the open recipe."""
