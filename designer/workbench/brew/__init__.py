"""A brew day under way: its log, where it stands, its timers; all without Qt."""
