"""When something goes in, said and read in the languages of the program.

A recipe keeps English words (`dry hop 4 days`), so that it reads the same everywhere.
"""

from __future__ import annotations

import re

from designer.recipe.quantity import Stage
from designer.recipe.same_name import folded
from designer.translation import spoken, tr, trn

_STAGES = {
    Stage.STEEP: "ziehen lassen; ziehen; einweichen; infusion; infuser; trempage; laisser infuser",
    Stage.FIRST_WORT: "vorderwürze; vorderwürzehopfung; premier moût",
    Stage.BOIL: "kochen; kochzeit; ébullition; bouillir; faire bouillir",
    Stage.FLAME_OUT: "herd aus; flamme aus; feuer aus; kochende; feu éteint; hors du feu;"
    " fin d'ébullition; extinction du feu; feu coupé",
    Stage.STAND: "rast; hopfenrast; nachziehen; stehen; stehen lassen; repos; laisser reposer;"
    " repos hors du feu",
    Stage.FERMENTER: "gärbehälter; gäreimer; gärtank; gärung; fermenteur; cuve",
    Stage.DRY_HOP: "stopfen; hopfenstopfen; kalthopfen; kalthopfung; houblonnage à cru; à cru;"
    " houblonner à cru",
}
"""What German and French call them, from memory of handbooks; what is shown is a translation."""
JOINING = {"bei": "at", "à": "at", "a": "at", "für": "", "pendant": "", "durant": "", "lang": ""}
"""What joins the figures of a moment, and what a recipe has for it."""
_TIMES = {
    "minute": "min", "minuten": "min", "std": "h", "stunde": "h", "stunden": "h", "heure": "h",
    "heures": "h", "tag": "days", "tage": "days", "tagen": "days", "jour": "days",
    "jours": "days", "woche": "weeks", "wochen": "weeks", "semaine": "weeks", "semaines": "weeks",
}  # fmt: skip
_ENGLISH = re.compile(
    r"(steep|first wort|boil|flame[ -]?out|(?:hop )?stand|whirlpool|fermenter|dry[ -]?hop)(?= |$)",
    re.IGNORECASE,
)
_OTHERWISE = {
    "whirlpool": Stage.STAND,
    "hop stand": Stage.STAND,
    "flame out": Stage.FLAME_OUT,
    "flameout": Stage.FLAME_OUT,
    "dry-hop": Stage.DRY_HOP,
    "dryhop": Stage.DRY_HOP,
}
"""Other English words for them."""
_DAYS = re.compile(r"([\d.,]+) (?:days?|d)\b")
_MOST_WORDS = 4
_MEANT = {
    folded(each.strip()): stage for stage, words in _STAGES.items() for each in words.split(";")
}


def is_moment(text: str) -> bool:
    """Whether a text says when something goes in, in the words that a recipe keeps."""
    return _ENGLISH.match(text) is not None


def said_when(text: str) -> str:
    """Return the words of a recipe for when something goes in as the user's language has them."""
    if spoken() == "en":
        return text
    found = _ENGLISH.match(text)
    if found is None:
        return text
    head = " ".join(found[1].lower().split())
    stage = _OTHERWISE.get(head) or Stage(head)
    rest = _DAYS.sub(_days, text[found.end() :].strip())
    time, at, temperature = rest.partition(" at ")
    if not time:
        return tr(stage.value)
    if at:
        return tr("{stage} {time} at {temperature}", stage=tr(stage.value), time=time,
                  temperature=temperature)  # fmt: skip
    return tr("{stage} {time}", stage=tr(stage.value), time=time)


def _days(found: re.Match[str]) -> str:
    count = float(found[1].replace(",", "."))
    return trn("{count} day", "{count} days", 1 if count == 1.0 else 2, count=found[1])


def when_in_english(text: str) -> str:
    """Return what was typed of when something goes in, in the words that a recipe keeps.

    English, and what none of the languages says, comes back as it is.
    """
    words = text.split()
    if not words or _ENGLISH.match(text):
        return text
    meant = _meant()
    for count in range(min(len(words), _MOST_WORDS), 0, -1):
        stage = meant.get(folded(" ".join(words[:count])))
        if stage is not None:
            return _joined(stage, words[count:])
        stage = meant.get(folded(" ".join(words[-count:])))
        if stage is not None and count < len(words):  # 60 min kochen
            return _joined(stage, words[:-count])
    return text


def _joined(stage: Stage, rest: list[str]) -> str:
    said = [JOINING.get(each.lower(), _TIMES.get(folded(each), each)) for each in rest]
    return " ".join(each for each in (stage.value, *said) if each)


def begins_when(plain: str) -> bool:
    """Whether a text is the beginning of what another language calls one of the moments."""
    wanted = folded(plain)
    return any(each.startswith(wanted) for each in _meant())


def _meant() -> dict[str, Stage]:
    """The moments by what they are called, in the user's language as it is shown too."""
    if spoken() == "en":
        return _MEANT
    return _MEANT | {folded(tr(stage.value)): stage for stage in Stage}
