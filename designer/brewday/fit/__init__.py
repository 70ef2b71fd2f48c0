"""Fitting a recipe to the pot and the fermenters of a kitchen, by running the day again and again.

`ways.ways` finds all ways side by side; `scaling`, `substitution`, `pack_choice` and
`cooling_plan` answer the single questions. Nothing here knows a formula of its own: each number is
sought through the day.
"""
