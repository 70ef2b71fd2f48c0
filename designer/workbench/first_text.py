"""First recipes as lines for a terminal and as the values of `--json`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from designer.brewday.predictions import BY_KEY, ON_OTHER_SCALES
from designer.recipe.document import Fermentable, Hop
from designer.recipe.message import Message
from designer.recipe.quantity import Quantity
from designer.recipe.when_words import said_when
from designer.translation import labelled, named, parted, tr, trn
from designer.units.piece_words import said_pieces
from designer.units.quoting import one_line
from designer.workbench.figures import Figures
from designer.workbench.first_aims import FORECASTS
from designer.workbench.first_answers import Answers, Draft, Reading, Wished

NAME_WIDTH = 44


def design_lines(
    reading: Reading, wished: Wished, drafts: tuple[Draft, ...], figures: Figures
) -> list[str]:
    """Return the recipes as lines: what they will be, each line with its reason."""
    figure = figures.exactly
    head = [reading.said.text] if reading.said.text else []
    if reading.unread:
        head.append(tr("not understood: {words}", words=one_line(reading.unread)))
    head.append(parted((wished.strength.said(figure), wished.bitterness.said(figure))))
    lines = [one_line(each) for each in head]
    for number, draft in enumerate(drafts, 1):
        lines += ["", f"{number}. {labelled(draft.name.text, draft.about.text)}"]
        lines += [f"   {each}" for each in _draft_lines(draft, figures)]
    return lines


def _draft_lines(draft: Draft, figures: Figures) -> Iterator[str]:
    figure = figures.exactly
    forecasts = ((tr(BY_KEY[key].heading), _figure(draft, key, figures)) for key in FORECASTS)
    yield ", ".join(map(" ".join, forecasts))
    why = {(each.lines, each.line_id): each for each in draft.reasons}
    lines: tuple[tuple[str, Fermentable | Hop], ...] = (
        *(("fermentables", line) for line in draft.recipe.fermentables),
        *(("hops", hop) for hop in draft.recipe.hops),
    )
    for kind, line in lines:
        reason = why[kind, line.line_id]
        amount = _text(line.amount, figures)
        said = f"{amount:>10} {named(line.name)}, {said_when(line.when.text)}"
        in_hand = f" ({reason.in_hand.said(figure)})" if reason.in_hand is not None else ""
        yield f"{said:<{NAME_WIDTH + 10}} {reason.why.said(figure)}{in_hand}".rstrip()
    yeast = draft.recipe.yeast
    amount = _text(yeast.amount, figures)
    said = f"{amount:>10} {named(yeast.name)}"
    yield f"{said:<{NAME_WIDTH + 10}} {why['yeast', 0].why.said(figure)}"
    process = draft.recipe.process
    yield tr(
        "Start with {water}, boil {minutes}, top up to {batch}, pitch at {temperature}.",
        water=_text(process.start_water, figures),
        minutes=_text(process.boil_time, figures),
        batch=_text(process.top_up_to, figures),
        temperature=_text(process.pitch_temperature, figures),
    )
    yield trn("{number} thing to buy.", "{number} things to buy.", draft.to_buy)
    for each in draft.gave_way:
        yield tr("Gave way: {what}", what=each.said(figure))


def _figure(draft: Draft, key: str, figures: Figures) -> str:
    """A forecast with its unit; colour on both scales."""
    figures = replace(figures, colour="srm")
    scales = [BY_KEY[key], *(each for each in (ON_OTHER_SCALES.get(key),) if each is not None)]
    return " · ".join(
        figures.forecast(each, draft.outlook.forecasts[each.key].value) for each in scales
    )


def _text(quantity: Quantity | None, figures: Figures) -> str:
    """What a recipe says, with the decimal sign and the pieces of its reader."""
    return "" if quantity is None else said_pieces(figures.plain(quantity.text))


def design_document(
    reading: Reading, wished: Wished, answers: Answers, drafts: tuple[Draft, ...]
) -> dict[str, Any]:
    """Return the recipes as plain values."""
    return {
        "asked": answers.words,
        "read_as": reading.said.text or None,
        "style": reading.style.name if reading.style is not None else None,
        "not_understood": reading.unread or None,
        "wished": {
            "original_gravity": wished.original_gravity,
            "final_gravity": wished.final_gravity,
            "abv_percent": wished.abv_percent,
            "bitterness_ibu": wished.bitterness_ibu,
            "colour_srm": wished.colour_srm,
            "batch_l": wished.batch_l,
        },
        "alternatives": [_document(number, each) for number, each in enumerate(drafts, 1)],
    }


def _document(number: int, draft: Draft) -> dict[str, Any]:
    recipe = draft.recipe
    why = {(each.lines, each.line_id): each for each in draft.reasons}

    def line(kind: str, each: Fermentable | Hop) -> dict[str, Any]:
        reason = why[kind, each.line_id]
        return {
            "name": each.name,
            "amount": each.amount.text if each.amount is not None else None,
            "amount_kg": each.amount.value if each.amount is not None else None,
            "goes_in": each.when.text,
            **_reason(reason.why, reason.in_hand),
        }

    yeast = why["yeast", 0]
    return {
        "number": number,
        "key": draft.key,
        "name": draft.name.text,
        "about": draft.about.text,
        "forecasts": {key: found.value for key, found in draft.outlook.forecasts.items()},
        "fermentables": [line("fermentables", each) for each in recipe.fermentables],
        "hops": [line("hops", each) for each in recipe.hops],
        "yeast": {
            "name": recipe.yeast.name,
            "form": recipe.yeast.form,
            "amount": recipe.yeast.amount.text if recipe.yeast.amount is not None else "",
            **_reason(yeast.why, yeast.in_hand),
        },
        "start_water_l": recipe.process.start_water.value if recipe.process.start_water else None,
        "batch_l": recipe.process.top_up_to.value if recipe.process.top_up_to else None,
        "gave_way": [each.text for each in draft.gave_way],
        "findings": [
            {"code": each.code, "severity": str(each.severity), "message": each.message.text}
            for each in draft.outlook.findings
        ],
        "to_buy": draft.to_buy,
    }


def _reason(why: Message, in_hand: Message | None) -> dict[str, Any]:
    return {"why": why.text, "in_hand": in_hand.text if in_hand is not None else None}
