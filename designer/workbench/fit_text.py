"""The ways to fit a recipe to a kitchen, as lines for a terminal and as the values of `--json`."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import groupby
from math import isfinite
from textwrap import wrap
from typing import Any

from designer.brewday.fit.answer import Boil, Compared, Filling, FitAnswer, LeftOver, ToBuy, Way
from designer.brewday.predictions import Prediction
from designer.brewday.time_line import Addition
from designer.recipe.document import Recipe
from designer.recipe.message import Message, plain_figure, say, within
from designer.recipe.named import lines_of
from designer.recipe.plan_words import plan_words
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.translation import labelled, message, named, tr
from designer.units.quoting import one_line
from designer.workbench.figures import PLAIN, Figures, told_forecasts
from designer.workbench.forecast_text import SPANS

WIDTH = 96
SPAN_WIDTH = 16
"""Columns of the range of a forecast, at least."""
JUST_AT_IT_L = 0.05
"""What no mark on a pot shows: less room than this below the foam line is said to be none."""
_LATER = (Stage.FERMENTER, Stage.DRY_HOP)
"""What goes in then has no minute of the brewing day."""
_HARD_SPACE = "\u00a0"
"""Keeps a figure and its unit on one line while a paragraph is broken."""
GROUPS = {True: message("With what you have:"), False: message("If you buy or borrow:")}
"""What heads the ways for which nothing has to be bought, and the others."""
_Show = Callable[[Kind, float], str]


class _Figure:
    """Writes a figure with a hard space before its unit."""

    def __init__(self, figures: Figures) -> None:
        self.figures = figures

    def __call__(self, kind: Kind, value: float) -> str:
        return self.figures(kind, value).replace(" ", _HARD_SPACE)

    def typed(self, kind: Kind, quantity: Quantity) -> str:
        """Return what was typed, or comes of it."""
        return self.figures.typed(kind, quantity).replace(" ", _HARD_SPACE)


def fit_lines(recipe: Recipe, answer: FitAnswer, figures: Figures = PLAIN) -> list[str]:
    """Return the ways as lines: what is done, what comes of it, what it asks for."""
    figure = _Figure(figures)
    lines = [recipe.name, "", *_wrapped(answer.sentence.said(figure), "")]
    for in_hand, ways in groupby(answer.ways, key=lambda way: way.in_hand):
        lines += ["", tr(GROUPS[in_hand])]
        for way in ways:
            lines += ["", f"{way.rank}. {tr(way.name)}", *_way_lines(way, figure)]
    if answer.no_ways:
        lines += ["", tr("Does not work here:")]
        for each in answer.no_ways:
            lines += _wrapped(labelled(tr(each.name), each.reason.said(figure)), "  ")
    if answer.idle_hops:
        lines.append("")
        for said in answer.idle_hops:
            lines += _wrapped(said.said(figure), "")
    if answer.would_work:
        lines += ["", tr("What would make it fit in one plain boil:")]
        for said in answer.would_work:
            lines += _wrapped(said.said(figure), "  ")
    return [line.replace(_HARD_SPACE, " ") for line in lines]


def _wrapped(text: str, indent: str, first: str = "") -> list[str]:
    lines = wrap(
        text, WIDTH, initial_indent=indent + first, subsequent_indent=indent + " " * len(first)
    )
    return [line.replace(_HARD_SPACE, " ") for line in lines]


def _way_lines(way: Way, figure: _Figure) -> Iterator[str]:
    yield from _wrapped(way.judgement.said(figure), "   ")
    for said in way.steps:
        yield from _wrapped(said.said(figure, figure.typed), "   ", "- ")
    yield from _wrapped(way.cooling.sentence.said(figure), "   ")
    alike = all(boil.recipe == way.boils[0].recipe for boil in way.boils)
    for place, boil in enumerate(way.boils[:1] if alike else way.boils, 1):
        yield from _boil_lines(boil, figure, "" if len(way.boils) == 1 or alike else f" {place}")
    yield f"   {tr('The beer (and the change from the recipe):')}"
    for each in told_forecasts():
        yield _compared_line(each, way.forecasts[each.key], figure.figures)
    yield from _asks_lines(way, figure)
    for said in way.cautions:
        yield from _wrapped(said.said(figure), "   ", tr("Care: "))
    for other in way.much_the_same:
        same = tr(
            "Much the same: {rank}. {way}. {judgement}",
            rank=other.rank,
            way=tr(other.name),
            judgement=other.judgement.said(figure),
        )
        yield from _wrapped(same, "   ")


def _compared_line(each: Prediction, found: Compared, figures: Figures) -> str:
    low, high = (figures.forecast(each, found.low, unit=False), figures.forecast(each, found.high))
    span = f"{tr(SPANS[found.leans], low=low, high=high):<{SPAN_WIDTH}}"
    words = figures.change(each, found.value, found.original) or tr("same")
    return f"     {tr(each.label):<18}{figures.forecast(each, found.value):>8}   {span}  {words}"


def _boil_lines(boil: Boil, figure: _Show, which: str) -> Iterator[str]:
    parts = {
        "which": which,
        "start": figure(Kind.VOLUME, boil.start_water_l),
        "fullest": figure(Kind.VOLUME, boil.fullest_l),
        "foam": _foam(boil, figure),
        "first": figure(Kind.GRAVITY, float(boil.day.pot.boil_gravity_start)),
        "last": figure(Kind.GRAVITY, float(boil.day.pot.boil_gravity_end)),
        "bitterness": figure(Kind.BITTERNESS, boil.pot_bitterness_ibu),
    }
    yield from _wrapped(
        tr(
            "Pot{which}: start {start}, fullest {fullest}{foam}; boil {first} to {last}, "
            "{bitterness} in the pot.",
            **parts,
        ),
        "   ",
    )
    yield f"   {tr('What goes in:')}"
    yield from _goes_in(boil, figure)


def _foam(boil: Boil, figure: _Show) -> str:
    if not isfinite(boil.foam_limit_l):
        return ""
    line, left = figure(Kind.VOLUME, boil.foam_limit_l), boil.foam_room_l
    if left < JUST_AT_IT_L:
        return tr("; foam line at {line}, just up to it at the fullest of the boil", line=line)
    return tr(
        "; foam line at {line}, {left} below it at the fullest of the boil",
        line=line,
        left=figure(Kind.VOLUME, left),
    )


def _goes_in(boil: Boil, figure: _Show) -> Iterator[str]:
    amounts = _amounts(boil.recipe, figure)
    wide = max((9, *map(len, amounts.values())))
    for each in boil.goes_in:
        amount = amounts.get((each.lines, each.line_id), "")
        when = (
            tr("{minutes} min before the end of the boil", minutes=f"{each.boil_left_min:.0f}")
            if each.boil_left_min is not None
            else tr(each.stage)
        )
        time = "" if each.stage in _LATER else figure(Kind.TIME, float(round(each.time_min)))
        yield from _wrapped(
            f"{named(each.name)}, {when}", "     ", f"{time:>9}  {amount:>{wide}}  "
        )


def _amounts(recipe: Recipe, figure: _Show = plain_figure) -> dict[tuple[str, int], str]:
    return {
        (lines, line.line_id): _amount(lines, line.amount, figure) if line.amount else ""
        for lines in ("fermentables", "hops", "extras")
        for line in lines_of(recipe, lines)
    }


def _amount(lines: str, amount: Quantity, figure: _Show = plain_figure) -> str:
    """Return a dose as it is counted, and a mass as a scale shows it."""
    if lines == "extras":
        return _counted(Kind.DOSE, amount, figure)
    return figure(Kind.MASS, amount.value)


def _counted(kind: Kind, amount: Quantity, figure: _Show) -> str:
    """Return an amount as it was typed: its reader's words where lines are made, else the text."""
    return figure.typed(kind, amount) if isinstance(figure, _Figure) else amount.text


def _asks_lines(way: Way, figure: _Show) -> Iterator[str]:
    batch, whole = (figure(Kind.VOLUME, each) for each in (way.batch_l, way.original_batch_l))
    beer = tr(
        "{batch} of beer of the recipe's {whole}; {time} at the stove and sink.",
        batch=batch,
        whole=whole,
        time=figure(Kind.TIME, way.total_min / way.brew_days),
    )
    if way.brew_days > 1:
        beer = tr(
            "{batch} of beer of the recipe's {whole}; {time} at the stove and sink on each of "
            "{n} days.",
            batch=batch,
            whole=whole,
            time=figure(Kind.TIME, way.total_min / way.brew_days),
            n=way.brew_days,
        )
    yield from _wrapped(beer, "   ")
    yield from _cost_lines(way, figure)
    for bought in way.must_buy:
        yield from _wrapped(_bought(bought, figure), "   ", tr("Buy: "))
    for left in way.kept_meanwhile:
        yield from _wrapped(_kept(left, figure), "   ", tr("Keep for the second brew: "))
    for left in way.left_over:
        yield from _wrapped(_kept(left, figure), "   ", tr("Left over: "))


def _kept(left: LeftOver, figure: _Show) -> str:
    return tr(
        "{amount} of {name}. {keep}",
        amount=_left(left, figure),
        name=named(left.name),
        keep=left.keep,
    )


def _bought(bought: ToBuy, figure: _Show) -> str:
    said = bought.words.said(figure)
    if bought.price is None:
        return said
    return tr("{bought}, for {money}", bought=said, money=figure(Kind.MONEY, bought.price))


def _left(left: LeftOver, figure: _Show = plain_figure) -> str:
    kind, amount = left.figure
    if isinstance(amount, Quantity):
        return _counted(kind, amount, figure)
    return figure(kind, amount)


def _cost_lines(way: Way, figure: _Show) -> Iterator[str]:
    """Yield what a way costs, as far as prices are known."""
    if way.cost is not None and way.cost_per_litre is not None:
        said = tr(
            "Cost of what goes in: {money}, {litre} a litre.",
            money=figure(Kind.MONEY, way.cost),
            litre=figure(Kind.MONEY, way.cost_per_litre),
        )
        whole = way.original_cost_per_litre
        if whole is not None and abs(whole - way.cost_per_litre) >= 0.005:
            whole_said = tr("The whole recipe: {litre} a litre.", litre=figure(Kind.MONEY, whole))
            said = f"{said} {whole_said}"
        yield f"   {said}"
    elif way.cost_used is not None:
        said = tr(
            "Cost of the recipe's own ingredients used: {money}.",
            money=figure(Kind.MONEY, way.cost_used),
        )
        yield f"   {said}"
    if way.must_buy and way.cost_to_buy is not None and len(way.must_buy) > 1:
        said = tr("To buy in all: {money}.", money=figure(Kind.MONEY, way.cost_to_buy))
        yield f"   {said}"


def fit_document(answer: FitAnswer) -> dict[str, Any]:
    """Return the ways as plain values; litres at 20 °C, but `fullest_l` as hot as it is."""
    return {
        "sentence": answer.sentence.text,
        "original": {key: _range(found) for key, found in answer.forecasts.items()},
        "original_batch_l": float(answer.original.fermenter.batch_l),
        "ways": [_way_document(way) for way in answer.ways],
        "does_not_work": [
            {"key": each.key, "name": each.name, "reason": each.reason.text}
            for each in answer.no_ways
        ],
        "would_work": [said.text for said in answer.would_work],
        "idle_hops": [said.text for said in answer.idle_hops],
    }


def used_line(way: Way, path: str) -> str:
    """Return in words what was written where: the recipe as it is brewed by a way."""
    return tr(
        "{path}: way {rank}, {name}. {how}",
        path=one_line(path),
        rank=way.rank,
        name=within(way.name),
        how=_how(way),
    )


def _how(way: Way) -> Message:
    return plan_words(way.planned) or say("as-written-sentence", "Brewed as written.")


def used_document(way: Way, path: str) -> dict[str, Any]:
    """Return as plain values what was written where."""
    return {"written": path, "way": _way_document(way)}


def _range(found: Any) -> dict[str, Any]:
    return {
        "value": found.value,
        "low": found.low,
        "high": found.high,
        "leans": found.leans or None,
    }


def _way_document(way: Way) -> dict[str, Any]:
    return {
        "key": way.key,
        "name": way.name,
        "rank": way.rank,
        "in_hand": way.in_hand,
        "closeness": way.closeness,
        "effort": way.effort,
        "judgement": way.judgement.text,
        "brewed": _how(way).text,
        "steps": [said.text for said in way.steps],
        "cautions": [said.text for said in way.cautions],
        "boils": [_boil_document(boil) for boil in way.boils],
        "forecasts": {
            key: {**_range(found), "original": found.original, "change": found.change}
            for key, found in way.forecasts.items()
        },
        "batch_l": way.batch_l,
        "pot_bitterness_ibu": way.pot_bitterness_ibu,
        "ceiling_ibu": way.ceiling_ibu,
        "total_min": way.total_min,
        "brew_days": way.brew_days,
        "cooling": {
            "sentence": way.cooling.sentence.text,
            "frozen_kg": way.cooling.planned.frozen_kg,
            "minutes": way.cooling.planned.cooling_min,
            "pour_at_c": way.cooling.planned.cool_to_c,
            "mixed_c": way.cooling.planned.mixed_c,
            "minutes_without_ice": way.cooling.without.cooling_min,
            "mixed_without_ice_c": way.cooling.without.mixed_c,
        },
        "must_buy": [
            {
                "what": str(each.what),
                "amount": each.amount.text if each.amount is not None else None,
                "packs": [{"count": count, "pack": name} for count, name in each.packs],
                "over_kg": each.over_kg,
                "keep": None if each.keeping is None else each.keeping.how.text,
                "price": each.price,
                "later": each.later,
            }
            for each in way.must_buy
        ],
        "left_over": [_left_document(each) for each in way.left_over],
        "kept_meanwhile": [_left_document(each) for each in way.kept_meanwhile],
        "cost": way.cost,
        "cost_used": way.cost_used,
        "cost_to_buy": way.cost_to_buy,
        "cost_per_litre": way.cost_per_litre,
        "original_cost_per_litre": way.original_cost_per_litre,
        "much_the_same": [_way_document(each) for each in way.much_the_same],
    }


def _left_document(left: LeftOver) -> dict[str, Any]:
    return {
        "list": left.lines,
        "name": left.name,
        "amount": _left(left),
        "keep": left.keep.text,
        "keep_briefly": left.keeping.briefly.text,
        "keeps_days": left.keeping.days,
        "keep_source": left.keeping.source,
    }


def _boil_document(boil: Boil) -> dict[str, Any]:
    amounts = _amounts(boil.recipe)
    return {
        "start_water_l": boil.start_water_l,
        "fullest_l": boil.fullest_l,
        "fullest_at": boil.fullest_at,
        "rim_l": _finite(boil.rim_l),
        "foam_limit_l": _finite(boil.foam_limit_l),
        "foam_room_l": _finite(boil.foam_room_l),
        "boil_gravity_start": float(boil.day.pot.boil_gravity_start),
        "boil_gravity_end": float(boil.day.pot.boil_gravity_end),
        "pot_bitterness_ibu": boil.pot_bitterness_ibu,
        "from_pot_l": float(boil.day.fermenter.from_pot_l),
        "top_up_l": boil.top_up_l,
        "frozen_kg": boil.frozen_kg,
        "batch_l": float(boil.day.fermenter.batch_l),
        "goes_in": [_addition(each, amounts) for each in boil.goes_in],
        "fermenters": [_filling(each) for each in boil.fillings],
    }


def _finite(value: float) -> float | None:
    return value if isfinite(value) else None


def _addition(each: Addition, amounts: dict[tuple[str, int], str]) -> dict[str, Any]:
    return {
        "name": each.name,
        "amount": amounts.get((each.lines, each.line_id)) or None,
        "stage": each.stage,
        "time_min": None if each.stage in _LATER else each.time_min,
        "boil_left_min": each.boil_left_min,
    }


def _filling(each: Filling) -> dict[str, Any]:
    volume = each.fermenter.volume
    return {
        "name": each.fermenter.name,
        "in_hand": each.in_hand,
        "brim_l": volume.value if volume is not None else None,
        "from_pot_l": each.from_pot_l,
        "liquid_top_up_l": each.liquid_top_up_l,
        "frozen_kg": each.frozen_kg,
        "hot_l": each.hot_l,
        "filled_l": each.filled_l,
    }
