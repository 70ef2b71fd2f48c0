"""Brew day: the sheet alive beside the stove."""
