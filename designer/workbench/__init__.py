"""What the window and the command line both do; no Qt."""
