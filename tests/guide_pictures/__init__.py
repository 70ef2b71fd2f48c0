"""The pictures of the guide, made of the program as it is today: `python -m tests.guide_pictures`."""
