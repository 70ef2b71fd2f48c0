"""Proof of the first recipes: every style, four kitchens, looked at by sums of its own."""
