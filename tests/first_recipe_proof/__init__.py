"""First recipes of every style, looked at by sums of this package's own."""
