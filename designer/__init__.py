"""Hobwort: plan a stove-top brew from malt extract and steeping grain."""

__version__ = "1.0.0"
