"""The tests of an odd reading in words: what to do, and what may then be seen."""

from __future__ import annotations

from designer.brewday.explaining.asked import Asked, TestCode
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.judged import reads_between
from designer.brewday.explaining.posterior import Posterior
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind

WATER = (Kind.GRAVITY, 1.0)

TITLES = {
    TestCode.STIR: say("test-stir", "Stir hard for two minutes, down to the floor. Read again."),
    TestCode.TOP_AND_BOTTOM: say(
        "test-top-and-bottom", "Read one sample from the top and one from the bottom."
    ),
    TestCode.COOL: say("test-cool", "Cool the sample to {0}. Read again."),
    TestCode.WATER_CHECK: say("test-water", "Float the hydrometer in plain water of {0}."),
    TestCode.SETTLE: say("test-settle", "Spin it, let it rest ten minutes. Read again."),
    TestCode.WEIGH: say("test-weigh", "Read the level again, or weigh it."),
    TestCode.COUNT_PACKETS: say("test-count", "Count the tins and packets."),
    TestCode.SUM: say("test-sum", "Add it up from the labels."),
    TestCode.WAIT: say("test-wait", "Wait two hours. Read again."),
}
"""By the test; `{0}` is the temperature that the instrument is made for, `{1}` water."""

MESSAGES = {
    TestCode.STIR: say(
        "do-stir",
        "Stir hard for two minutes with a clean spoon, from the floor up, or pour it across twice. "
        "Wait two minutes and read again.",
    ),
    TestCode.TOP_AND_BOTTOM: say(
        "do-top-and-bottom",
        "Do not stir. Read a sample from the top and one from the bottom, and say whether they "
        "differ by more than 2 points.",
    ),
    TestCode.COOL: say(
        "do-cool",
        "Stand the sample jar in cold water until a thermometer in it says {0}. Read again.",
    ),
    TestCode.WATER_CHECK: say(
        "do-water",
        "Float the hydrometer in plain water of {0}. It should show {1}; say what it shows.",
    ),
    TestCode.SETTLE: say(
        "do-settle",
        "Spin the hydrometer and tap off the bubbles, let it rest ten minutes, and read at the "
        "flat level, not at the top of the curve.",
    ),
    TestCode.WEIGH: say(
        "do-weigh",
        "Read the level with your eye at its height. Or weigh it full and take off the empty "
        "vessel: 1 kg of wort is a little less than 1 L. Two people lift a full one.",
    ),
    TestCode.COUNT_PACKETS: say(
        "do-count",
        "Count the empty tins and packets, look in the cupboard, and weigh what is left.",
    ),
    TestCode.SUM: say(
        "do-sum",
        "Points read times litres, against what the labels say is in it. Do they agree?",
    ),
    TestCode.WAIT: say("do-wait", "Wait two hours and read again. Has it fallen?"),
}


def shows(
    code: TestCode, finds: bool, posterior: Posterior, asked: Asked, beliefs: Beliefs
) -> Message:
    """Return what is seen where a test finds something, and where it does not."""
    if code in (TestCode.STIR, TestCode.COOL) and finds:
        return say(
            "shows-forecast",
            "{0} to {1}",
            *((Kind.GRAVITY, each) for each in reads_between(beliefs, asked.samples[-1].taken)),
        )
    if code in _STILL and not finds:
        return say("shows-still", "Still {0}", (Kind.GRAVITY, 1.0 + posterior.reading_points / 1e3))
    return _FINDS[code] if finds else _FINDS_NOT[code]


_STILL = (TestCode.STIR, TestCode.COOL, TestCode.SETTLE, TestCode.WAIT)
_FINDS = {
    TestCode.TOP_AND_BOTTOM: say("shows-differ", "They differ"),
    TestCode.WATER_CHECK: say("shows-not-water", "Not {0}", WATER),
    TestCode.SETTLE: say("shows-another", "It reads otherwise"),
    TestCode.WEIGH: say("shows-another-level", "Another level"),
    TestCode.COUNT_PACKETS: say("shows-not-as-meant", "Not as the recipe says"),
    TestCode.SUM: say("shows-short", "They do not agree"),
    TestCode.WAIT: say("shows-fallen", "It has fallen"),
}
_FINDS_NOT = {
    TestCode.TOP_AND_BOTTOM: say("shows-alike", "They are alike"),
    TestCode.WATER_CHECK: say("shows-water", "{0}", WATER),
    TestCode.WEIGH: say("shows-level", "The level is right"),
    TestCode.COUNT_PACKETS: say("shows-as-meant", "All of it went in"),
    TestCode.SUM: say("shows-agree", "They agree"),
}
