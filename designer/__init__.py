"""Hobwort: plan a stove-top brew from malt extract and steeping grain."""

__version__ = "0.1.0"
