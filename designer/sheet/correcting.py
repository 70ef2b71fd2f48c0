"""What to add to a hydrometer reading of a warm or cold sample, as a small table.

Worked out for the gravities the sheet asks to be read: `designer.wort.hydrometer`, an instrument
made for 20 °C.
"""

from __future__ import annotations

from designer.sheet.blocks import Table
from designer.sheet.plan import Plan
from designer.wort.hydrometer import reading_for

HIGHEST_IN_TABLE = 1.2


def correction_table(plan: Plan) -> Table:
    """Return the corrections at some sample temperatures, near the two gravities forecast."""
    temperatures = plan.figures.sample_temperatures_c
    rows = []
    for key in ("original_gravity", "final_gravity"):
        expected = min(max(plan.outlook.forecasts[key].value, 0.99), HIGHEST_IN_TABLE)
        adds = (expected - float(reading_for(expected, temp)) for temp in temperatures)
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
