"""What an odd gravity reading says: what may lie behind it, which test tells, and what cures it."""
