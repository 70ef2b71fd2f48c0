"""A first recipe: what goes in, how much, and how it is brewed, sought through the day."""
