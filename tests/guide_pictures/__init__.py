"""The pictures of the guide, of the program as it is today: `python -m tests.guide_pictures`."""
