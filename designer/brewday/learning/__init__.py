"""What brews teach of a kitchen: its own figures, narrowed brew by brew."""
