"""Vessels and cupboard: the page of what stands in the kitchen."""
