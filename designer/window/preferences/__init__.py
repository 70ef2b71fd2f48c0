"""Preferences: all that can be chosen about the program, in one place."""

from designer.window.preferences.preferences_dialog import Preferences

__all__ = ["Preferences"]
