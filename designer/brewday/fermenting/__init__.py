"""The beer in the fermenter: its course, what readings say of it, and whether it is done."""
