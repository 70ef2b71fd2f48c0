"""No test of units is timed: a busy machine must not fail a drawn example."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
