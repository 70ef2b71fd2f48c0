"""What to add to a hydrometer reading of a warm or cold sample, as a small table.

Worked out for the gravities the sheet asks to be read and for the brewer's hydrometer, the
temperature it is made for and what it shows in water: `designer.wort.hydrometer`.
"""

from __future__ import annotations

from designer.brewday.instrument import reads_high_by
from designer.recipe.fields import number
from designer.sheet.blocks import Table
from designer.sheet.plan import Plan
from designer.wort.hydrometer import on_its_scale, reading_for

HIGHEST_IN_TABLE = 1.2


def correction_table(plan: Plan) -> Table:
    """Return the corrections at some sample temperatures, near the two gravities forecast."""
    temperatures = plan.figures.sample_temperatures_c
    made_for_c = number(plan.recipe.process, "hydrometer_made_for")
    too_high = reads_high_by(plan.recipe.process)
    rows = []
    for key in ("original_gravity", "final_gravity"):
        expected = min(max(plan.outlook.forecasts[key].value, 0.99), HIGHEST_IN_TABLE)
        on_scale = on_its_scale(expected, made_for_c)
        shown = (float(reading_for(on_scale, temp, made_for_c)) for temp in temperatures)
        adds = (expected - too_high - each for each in shown)
        near = plan.say("near {gravity}", gravity=plan.figures.gravity(expected))
        rows.append((near, *(signed(plan, each) for each in adds)))
    return Table(
        plan.say("To the reading add"),
        (plan.say("Sample at"), *(plan.figures.temperature(temp) for temp in temperatures)),
        tuple(rows),
    )


def signed(plan: Plan, correction: float) -> str:
    """Return a correction with its sign, to the third place."""
    text = plan.figures.number(correction, "+.3f")
    return "0" if not any(sign in text for sign in "123456789") else text.replace("-", "−")
