"""Units for what is typed and shown.

Below this package there is one unit a kind (see `designer.recipe.quantity`); only here are others
known. Text is never handed to pint: the number is read first, then the unit looked up in a table of
words within the dimension of the field, so that `68 F` in a temperature field is a temperature and
`1 1/2 oz` is one and a half. What words are worth is for pint to say, over which the units of the
trade are loaded (`resources/units.txt`, `definitions`); the table that every key uses is made of it
beforehand, rarer units are asked of pint when one is first typed.
"""

from designer.units.clock import is_clock, read_clock
from designer.units.reading import read, read_when
from designer.units.showing import show
from designer.units.shown import ShownUnits

__all__ = ["ShownUnits", "is_clock", "read", "read_clock", "read_when", "show"]
