"""How much a recipe may hold: the same for typing, pasting, keeping, writing and opening.

Every way in asks here, so that nothing is taken that could not be opened again.
"""

from __future__ import annotations

MOST_LINES = 500
"""Lines of fermentables, of hops, of extras."""

MOST_BOILS = 6
"""Boils that one recipe is shared between."""

MOST_FERMENTERS = 12
"""Fermenters that one recipe is shared between."""

MOST_OWN_LINES = 3000
"""Lines that the boils of a plan list in place of their share of the recipe, in all boils."""

LONGEST_WORDS = 20_000
"""Characters of a name or of the notes."""

LONGEST_TYPED = 10 * LONGEST_WORDS
"""Characters that an editor takes: more than is held, so that a long text is refused, not cut."""

LONGEST_QUANTITY = 200
"""Characters of a quantity or of a time, as it is typed."""

MOST_CHARACTERS = 500_000
"""Characters of all words and quantities of a recipe together, when it is changed. In a file none
takes more than six bytes, and 4500 lines have some 1.2 MB of keys: that stays below what is read.
"""

LARGEST_DOCUMENT_BYTES = 5_000_000
"""Bytes of a recipe file."""

DEEPEST = 50
"""Brackets within brackets in a recipe file."""

MOST_OBJECTS = 5000
"""Objects { ... } in a recipe file; a full one has one for each line and part, some 4600."""

LONGEST_NUMBER = 4000
"""Digits of a number in a recipe file."""

MOST_PROBLEMS = 20
"""Problems of a file that are told one by one; the others are counted."""
