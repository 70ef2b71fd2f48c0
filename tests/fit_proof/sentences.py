"""Sentences of the ways, read as a brewer reads them, against the numbers of `--json`.

A figure said is the number as it is printed; more is more and less is less as printed; what is
printed alike is the same, and nothing is "instead of" what is printed alike; one is one, and two
are two. Nothing here knows how a sentence is made: its text alone is read.
"""

import re
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate

from designer.brewday.predictions import BY_KEY
from designer.recipe.quantity import Kind
from designer.units import ShownUnits, read, show
from designer.workbench.figures import Figures, told_forecasts
from designer.workbench.fit_text import fit_document, fit_lines
from tests.fit_proof.balance import every_way

FIGURE = r"\d+(?:\.\d+)?(?: (?:kg|g|L/h|mL/h|L|mL|IBU|SRM|min|h|°C|%|gal/h|gal|qt|lb|oz))?"
INSTEAD = re.compile(rf"({FIGURE}) instead of ({FIGURE})")
MORE = {
    "stronger": ("original_gravity", 1), "weaker": ("original_gravity", -1),
    "more bitter": ("bitterness_ibu", 1), "less bitter": ("bitterness_ibu", -1),
    "darker": ("colour_srm", 1), "paler": ("colour_srm", -1),
}  # fmt: skip
DIFFERS = re.compile(
    rf"({'|'.join(sorted(MORE, key=len, reverse=True))}), ({FIGURE}) instead of ({FIGURE})"
)
ONE_AND_MANY = re.compile(
    r"(?<![.\d])1 (?:fermenters|packets|sachets|boils|ways|tablets|pots|bags|tins)\b"
    r"|(?<![.\d])(?:[2-9]|[1-9]\d+) "
    r"(?:way works|more fermenter\b|packet\b|sachet\b|tablet\b|boil\b)"
)
TOO_FINE = re.compile(
    r"\b\d{3,}\.\d+ (?:g|mL|min)\b|\b\d+\.\d{3,} (?:L|min|h)\b|\d\.\d{4,}|\.\d+ % of"
)
ABOUT_LINES = ("Hold back", "Keep ", "Add ")
"""Steps that tell of lines which another step puts in."""
COUNTS = {"another": 1, "2 more": 2, "3 more": 3}


def volume(litres):
    """Return litres as they are printed."""
    return show(Kind.VOLUME, litres, rounded=True)


def mass(kg):
    """Return kilograms as they are printed."""
    return show(Kind.MASS, kg, rounded=True)


def printed(key, value):
    """Return a forecast as it is printed in a sentence."""
    return show(BY_KEY[key].kind, value, rounded=True)


def number(text):
    """Return the number that a figure begins with."""
    return float(text.split()[0])


def faults(recipe, answer) -> Iterator[str]:
    """Yield each sentence that does not agree with its numbers, and why."""
    document = fit_document(answer)
    yield from _of_all(document)
    for found, way in zip(answer.every_way, every_way(document), strict=True):
        for fault in (
            *_judgement(way, document),
            *_steps(way, document, found, recipe),
            *_cooling(way),
            *_cautions(way),
        ):
            yield f"{way['key']}: {fault}"
    for units in (ShownUnits.METRIC, ShownUnits.US):
        lines = fit_lines(recipe, answer, Figures(units))
        text = re.sub(r"\s+", " ", " ".join(lines))
        for found in INSTEAD.finditer(text):
            if found[1] == found[2]:
                yield f"printed alike: {found[0]}"
        for fault in (*ONE_AND_MANY.findall(text), *TOO_FINE.findall(text)):
            yield f"{units}: {fault}"
    yield from _tables(document, fit_lines(recipe, answer))


def _of_all(document):
    """The sentence above all ways: how many there are, and which is the first."""
    said, ways = document["sentence"], document["ways"]
    if found := re.match(r"(\d+) ways work", said):
        if int(found[1]) != len(ways):
            yield f"{said}: there are {len(ways)}"
    elif said.startswith("One way works") and len(ways) != 1:
        yield f"{said}: there are {len(ways)}"
    elif said.startswith("Nothing works") and ways:
        yield f"{said}: {len(ways)} work"
    if found := re.search(r": ([^:]+)\.$", said):
        name = ways[0]["name"] if ways else ""
        if name.lower() != found[1].lower():
            yield f"{said}: the first is {name}"
    wants = [[each for each in way["must_buy"] if not each["later"]] for way in ways]
    if "With what you have" in said and wants[0]:
        yield f"{said}: {wants[0][0]['what']} is to be bought"
    if "each with something to buy" in said and not all(wants):
        yield f"{said}: one wants nothing"


def _judgement(way, document):
    said, forecasts = way["judgement"], way["forecasts"]
    told = set()
    for found in DIFFERS.finditer(said):
        key, sign = MORE[found[1]]
        told.add(key)
        now, before = (printed(key, forecasts[key][which]) for which in ("value", "original"))
        if (found[2], found[3]) != (now, before):
            yield f"“{found[0]}”, but {now} and {before}"
        if sign * (number(found[2]) - number(found[3])) <= 0.0:
            yield f"“{found[0]}” is not {found[1]}"
    yield from _volume_told(said, way, document)
    if "the beer of the recipe" in said and INSTEAD.search(said):
        yield f"“{said}” is the same beer and another"
    for key, deadband in (("original_gravity", 0.0011), ("bitterness_ibu", 1.001)):
        change = forecasts[key]["change"]
        if key not in told and abs(change) > max(deadband, _well_inside(forecasts[key])):
            yield f"“{said}” does not tell of {key}, {change:+.3f}"
    yield from _wanted(said, way)
    if (found := re.search(r"draws up to (\S+) IBU more", said)) and float(found[1]) <= 0.0:
        yield f"“{found[0]}”"


def _volume_told(said, way, document):
    batch, whole = volume(way["batch_l"]), volume(document["original_batch_l"])
    for found in INSTEAD.finditer(said):
        if found[1].endswith("L") and (found[1], found[2]) != (batch, whole):
            yield f"“{found[0]}”, but {batch} and {whole}"


def _well_inside(forecast):
    return max(forecast["high"] - forecast["value"], forecast["value"] - forecast["low"])


def _wanted(said, way):
    """What a judgement says is wanted is on the list, and nothing is wanted that it denies."""
    vessels = [each["what"] for each in way["must_buy"] if "or the loan of one" in each["what"]]
    found = re.search(r"needs (another|\d more) fermenters?", said)
    if (COUNTS[found[1]] if found else 0) != len(vessels):
        yield f"“{said}”, but {len(vessels)} fermenters are to be had"
    denied = vessels if "no vessel bought" in said else way["must_buy"]
    if re.search("nothing bought|no vessel bought", said) and denied:
        yield f"“{said}”, but {denied[0]} is"


def _steps(way, document, found, recipe):
    known = _volumes_of(way, document, found, recipe)
    for said in way["steps"]:
        for figure in re.findall(r"(?<![\d.])\d+(?:\.\d+)? m?L(?![/\w])", said):
            if figure not in known:
                yield f"“{said}”: no number is {figure}"
    yield from _starts(way)
    yield from _sharing(way)
    yield from _topping_up(way)
    yield from _parts(way)
    yield from _losses(way)
    yield from _put_in(way)
    for said in way["steps"]:
        dissolves = said.split("dissolved")[0] if "dissolved" in said else ""
        if any(hop.name in dissolves for hop in recipe.hops):
            yield f"“{said}”: hops do not dissolve"


def _put_in(way):
    """The steps put in all that is weighed out, each line once, and nothing else."""
    boils = way["boils"]
    alike = any(said.startswith("Start each boil") for said in way["steps"])
    listed = Counter(
        f"{each['amount']} of {each['name']}"
        for boil in (boils[:1] if alike else boils)
        for each in boil["goes_in"]
        if each["amount"] and not _is_later(each)
    )
    listed += _later(way)
    text = "\n".join(said for said in way["steps"] if not said.startswith(ABOUT_LINES))
    told = Counter()
    for words in sorted(listed, key=len, reverse=True):
        pattern = rf"(?<![\d.]){re.escape(words)}(?=[,.;: \n]|$)"
        told[words] = len(re.findall(pattern, text))
        text = re.sub(pattern, "", text)
    for words in listed:
        if told[words] != listed[words]:
            yield f"{words} goes in {listed[words]} times, but is told {told[words]} times"
    for found in re.findall(r"\d (?:k?g|mL|tablet) of (?!ice|boiled|water|priming)[A-Z]\w+", text):
        yield f"“{found}…” is told, but not weighed out"


def _is_later(each):
    """Whether it is a hop that goes into the fermenter; extract is dissolved boil by boil."""
    return each["stage"] == "dry hop"


def _later(way):
    """What goes into the fermenter days later: whole, or for each boil where they stay apart."""
    text = " ".join(way["steps"])
    later = [[each for each in boil["goes_in"] if _is_later(each)] for boil in way["boils"]]
    found = Counter()
    if re.search(r"(?:bottling|yeast) put (?:[^.]|\.\d)*\binto each fermenter", text):
        later = later[:1]
    elif "into the fermenter of boil" not in text:
        for place, each in enumerate(later[0]):
            kg = sum(read(Kind.MASS, own[place]["amount"]).value for own in later)
            found[f"{mass(kg)} of {each['name']}"] += 1
        return found
    for each in (each for own in later for each in own):
        found[f"{each['amount']} of {each['name']}"] += 1
    return found


def _volumes_of(way, document, found, recipe):
    """Return every volume of a way, and what is typed of vessels and losses, as it is printed."""
    litres = [way["batch_l"], document["original_batch_l"]]
    of_a_plan = [each.recipe for each in found.boils]
    for each in (recipe, *of_a_plan):
        typed = (each.process.left_in_pot, each.pot.volume, each.fermenter.volume)
        litres += [quantity.value for quantity in typed if quantity is not None]
    for boil in way["boils"]:
        for said in (boil, *boil["fermenters"]):
            litres += [value for key, value in said.items() if key.endswith("_l") and value]
        litres += [_tap_l(each) for each in boil["fermenters"]]
        litres.append(sum(each["hot_l"] for each in boil["fermenters"]))
    parts = [boil["batch_l"] for boil in way["boils"]]
    return {volume(each) for each in (*litres, *accumulate(parts))}


def _starts(way):
    """The water, how full the pot is and of how much, boil by boil or once for boils alike."""
    boils = [
        (volume(boil["start_water_l"]), volume(boil["fullest_l"]), volume(boil["rim_l"]))
        for boil in way["boils"]
        if boil["rim_l"] is not None
    ]
    told = [
        (found[1], found[2], found[3])
        for said in way["steps"]
        if (
            found := re.match(
                rf"Start (?:each boil |boil \d )?with ({FIGURE}) of water.* holds ({FIGURE}) of "
                rf"({FIGURE}) \(",
                said,
            )
        )
    ]
    each_alike = any(said.startswith("Start each boil") for said in way["steps"])
    wanted = list(dict.fromkeys(boils)) if each_alike else boils
    if told != wanted:
        yield f"the pots are told as {told}, but are {wanted}"


def _sharing(way):
    """What is poured into which fermenter."""
    for said in way["steps"]:
        if not said.startswith("Stir the cooled wort and share it out"):
            continue
        told = re.findall(rf"({FIGURE}) into the ({FIGURE}) fermenter", said)
        wanted = [
            [(volume(each["from_pot_l"]), volume(each["brim_l"])) for each in boil["fermenters"]]
            for boil in way["boils"]
        ]
        if told not in wanted:
            yield f"“{said}”, but {wanted}"


def _topping_up(way):
    """To which mark, and with how much of what."""
    every = [each for boil in way["boils"] for each in boil["fermenters"]]
    for said in way["steps"]:
        if found := re.match(rf"Top each up to ({FIGURE})", said):
            marks = {volume(each["filled_l"]) for each in every}
            rough = [each["filled_l"] for each in every]
            if found[1] not in marks or max(rough) - min(rough) > 0.051:
                yield f"“{said}”, but the marks are {marks}"
        if found := re.match(rf"Top (?:each )?up to ({FIGURE}) with ({FIGURE}) of water", said):
            pairs = [(volume(x["filled_l"]), volume(_tap_l(x))) for x in every]
            if (found[1], found[2]) not in pairs:
                yield f"“{said}”, but {pairs}"
        if found := re.search(
            rf"up to ({FIGURE}): ({FIGURE}) of boiled and frozen water, then ({FIGURE})", said
        ):
            frozen = [(mass(x["frozen_kg"]), volume(_tap_l(x))) for x in every]
            if (found[2], found[3]) not in frozen:
                yield f"“{said}”, but {frozen}"
            if number(found[3]) == 0.0:
                yield f"“{said}”: nothing from the tap"


def _tap_l(filled):
    """Return what comes cold from the tap, beside what is poured just boiled on extract."""
    return filled["liquid_top_up_l"] - filled["hot_l"]


def _parts(way):
    """How much of a recipe is taken, and in which parts."""
    for said in way["steps"]:
        made = volume(way["batch_l"])
        if (found := re.search(rf"amounts listed make ({FIGURE})", said)) and found[1] != made:
            yield f"“{said}”, but {made}"
        if found := re.search(rf"one for ({FIGURE}), one for ({FIGURE})", said):
            parts = [volume(boil["batch_l"]) for boil in way["boils"]]
            if [found[1], found[2]] != parts:
                yield f"“{said}”, but {parts}"
        if found := re.search(rf"until ({FIGURE}) are left", said):
            left = [each["boil_left_min"] for boil in way["boils"] for each in boil["goes_in"]]
            if found[1] not in {show(Kind.TIME, each or 0.0, rounded=True) for each in left}:
                yield f"“{said}”, but nothing goes in then"


def _losses(way):
    """A smaller pot loses less."""
    for said in way["steps"]:
        if said.startswith("Counted with what a pot of this size loses"):
            for found in INSTEAD.finditer(said):
                small, large = (_litres(each) for each in (found[1], found[2]))
                if small >= large:
                    yield f"“{found[0]}” is not less"


def _litres(text):
    value, unit = text.split()
    return float(value) / (1000.0 if unit.startswith("mL") else 1.0)


def _cooling(way):
    said, cooling = way["cooling"]["sentence"], way["cooling"]
    if "no cooling" in said.lower() or not re.match(r"[\d.]+ (?:min|h)", said):
        return
    wanted = [
        show(Kind.TIME, cooling["minutes"], rounded=True),
        show(Kind.TEMPERATURE, cooling["pour_at_c"], rounded=True),
        show(Kind.TEMPERATURE, cooling["mixed_c"], rounded=True),
    ]
    if cooling["frozen_kg"] > 0.0:
        wanted += [mass(cooling["frozen_kg"])]
    for each in wanted:
        if each not in said:
            yield f"“{said}” without {each}"
    if found := re.search(rf"With none frozen it takes ({FIGURE}(?: \d+ min)?)", said):
        if cooling["minutes_without_ice"] < cooling["minutes"] - 0.05:
            yield f"“{said}”: ice makes it slower"
        if found[1] != show(Kind.TIME, cooling["minutes_without_ice"], rounded=True):
            yield f"“{said}”, but {cooling['minutes_without_ice']:.1f} min"


def _cautions(way):
    boils = way["boils"]
    for said in way["cautions"]:
        if found := re.match(r"(\S+ IBU) in the pot is more than the (\S+ IBU)", said):
            most = show(Kind.BITTERNESS, way["pot_bitterness_ibu"], rounded=True)
            if found[1] != most or number(found[1]) <= number(found[2]):
                yield f"“{said}”, but {most}"
        if found := re.match(r"The boil ends at (\S+):", said):
            strongest = f"{max(boil['boil_gravity_end'] for boil in boils):.3f}"
            if found[1] != strongest:
                yield f"“{said}”, but {strongest}"
        if "as full as it may be" in said and min(boil["foam_room_l"] for boil in boils) > 0.3:
            yield f"“{said}”, but there is room"


def _tables(document, lines):
    """The table of the beer of each way: "same" just where the printed figures are equal."""
    heads = [place for place, line in enumerate(lines) if line.startswith("   The beer (and")]
    for head, way in zip(heads, document["ways"], strict=True):
        for each in told_forecasts():
            key = each.key
            label = f"     {each.label}"
            rows = [line for line in lines[head : head + 12] if line.startswith(label + " ")]
            exact = [row for row in rows if re.match(rf"{re.escape(label)}\s+-?\d", row)]
            if len(exact) != 1:
                yield f"{way['key']}: {len(exact)} rows of {each.label}"
                continue
            yield from _row(way, key, each, exact[0])


def _row(way, key, each, row):
    figures = way["forecasts"][key]
    value, low, high, before = (
        f"{figures[which]:.{each.decimals}f}" for which in ("value", "low", "high", "original")
    )
    said = row.split()[-2 if each.unit and row.endswith(f" {each.unit}") else -1]
    if value not in row or f"{low} to {high}" not in row:
        yield f"{way['key']}: “{row.strip()}” is not {value}, {low} to {high}"
    if (said == "same") != (value == before):
        yield f"{way['key']}: “{row.strip()}”, was {before}"
    if said != "same" and abs(float(said) - (float(value) - float(before))) > 1e-9:
        yield f"{way['key']}: “{row.strip()}” is not the difference from {before}"
    if not float(low) <= float(value) <= float(high):
        yield f"{way['key']}: “{row.strip()}” lies outside its range"
