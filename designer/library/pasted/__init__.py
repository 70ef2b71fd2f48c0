"""Ingredients out of text that was written for people: spreadsheets, letters, lists.

What is certain becomes lines at once. Where anything is not, `PastedTable` holds what each column
and each row is taken for, and the brewer chooses. It reads the shapes in which people write a bill;
it knows no other program's files.
"""

from designer.library.pasted.columns import Means, Use
from designer.library.pasted.parting import Parting
from designer.library.pasted.row_reading import Row
from designer.library.pasted.table import PastedTable, pasted_table

__all__ = ["Means", "Parting", "PastedTable", "Row", "Use", "pasted_table"]
