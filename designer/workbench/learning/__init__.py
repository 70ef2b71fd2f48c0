"""What the logs of brews teach of the kitchen, and what of it the brewer took."""
