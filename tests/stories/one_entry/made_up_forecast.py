"""A forecast that does not exist, put into the list by one entry before anything else reads it.

Loaded as a plugin of pytest, in a process of its own: see `test_one_entry.py`.
"""

from designer.brewday import predictions
from designer.recipe.quantity import Kind

RESIDUE = predictions.Prediction(
    "residue_g_l",
    "Extract left over",
    Kind.NUMBER,
    "what no yeast ferments; made up for a test",
    lambda day: 2600.0 * (day.beer.final_gravity - 1.0),
    strip=(0.0, 80.0),
    name="Body",
    abbreviation="EL",
    decimals=2,
    unit="g/L",
    means=("fermentables",),
    close=0.01,
    deadband=0.5,
    weight=predictions.Weight(2.0, "fuller, {0} instead of {1}", "thinner, {0} instead of {1}"),
)
predictions.PREDICTIONS = (*predictions.PREDICTIONS, RESIDUE)
predictions.BY_KEY[RESIDUE.key] = RESIDUE
predictions.MAIN = (*predictions.MAIN, RESIDUE)
