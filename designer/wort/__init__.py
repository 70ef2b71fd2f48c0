"""Wort science: functions of numbers; one subject a module, its source cited."""
