"""What your reading says: a gravity reading, what may lie behind it, how to tell, what to do."""
