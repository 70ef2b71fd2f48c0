"""The day from what was measured of it: readings, what they leave of the doubts, and advice."""
