"""What an odd reading says, as lines that can be read out on the phone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from designer.brewday.explaining.asked import GravitySample, Scale
from designer.brewday.explaining.explained import Advised, Cure, Explained, LikelyCause
from designer.brewday.explaining.how_likely import how_likely
from designer.brewday.results import Range
from designer.recipe.quantity import Kind
from designer.translation import labelled, tr
from designer.workbench.figures import Figures


def reading_lines(told: Explained, sample: GravitySample, write: Figures) -> list[str]:
    """Return the answer to a reading as lines."""
    return [
        _read(told, sample, write),
        write.said(told.title) + ".",
        write.said(told.words),
        *_causes(told.causes, write),
        *_test(told.test, write),
        *_cures(told.cures, write),
    ]


def as_it_was_read(figures: Figures, sample: GravitySample) -> Figures:
    """Return figures with gravities in degrees Plato where they were read so."""
    return figures if sample.scale is Scale.SG else replace(figures, gravity="plato")


def _read(told: Explained, sample: GravitySample, write: Figures) -> str:
    """Return what was read, how warm, and what that is at 20 °C."""
    scale = {Scale.SG: "{0:.3f}", Scale.PLATO: "{0:.1f} °P", Scale.BRIX: "{0:.1f} °Bx"}
    read = write.plain(scale[sample.scale].format(sample.shown))
    at_20 = write(Kind.GRAVITY, told.reading_sg_20c)
    twenty = write(Kind.TEMPERATURE, 20.0)
    if sample.sample_c is None:
        return tr(
            "Read: {read}, its temperature not taken; at {twenty} that is {at_20}.",
            read=read,
            twenty=twenty,
            at_20=at_20,
        )
    return tr(
        "Read: {read} at {warmth}; at {twenty} that is {at_20}.",
        read=read,
        warmth=write(Kind.TEMPERATURE, sample.sample_c),
        twenty=twenty,
        at_20=at_20,
    )


def _causes(causes: tuple[LikelyCause, ...], write: Figures) -> Iterator[str]:
    if not causes:
        return
    yield ""
    yield tr("What may lie behind it:")
    for each in causes:
        yield "  " + tr(
            "{title}: {share:.0f} %, {likely}. {words} Then {beer}. To tell: {how}.",
            title=write.said(each.title),
            share=100.0 * each.probability,
            likely=write.said(how_likely(each.probability)),
            words=write.said(each.words),
            beer=_beer(each, write),
            how=write.said(each.how_to_tell),
        )


def _beer(cause: LikelyCause, write: Figures) -> str:
    gravity = write(Kind.GRAVITY, cause.original_gravity)
    alcohol = write.number(cause.abv_percent, 1)
    if cause.bitterness_ibu is None:
        return tr("OG {gravity}, {alcohol} % alcohol", gravity=gravity, alcohol=alcohol)
    return tr(
        "OG {gravity}, {alcohol} % alcohol, {bitter:.0f} IBU",
        gravity=gravity,
        alcohol=alcohol,
        bitter=cause.bitterness_ibu,
    )


def _test(test: Advised | None, write: Figures) -> Iterator[str]:
    if test is None:
        return
    yield ""
    yield tr(
        "First, the cheapest test ({minutes:.0f} min): {message}",
        minutes=test.minutes,
        message=write.said(test.message),
    )
    for each in test.outcomes:
        yield f"  {labelled(write.said(each.shows), write.said(each.says))}"


def _cures(cures: tuple[Cure, ...], write: Figures) -> Iterator[str]:
    if not cures:
        return
    yield ""
    yield tr("What can be done:")
    for each in cures:
        title, words = write.said(each.title), write.said(each.words)
        if each.off is not None:
            off = write.said(each.off)
            yield "  " + tr("Not yet: {title}. {off}", title=title, off=off)
            continue
        yield "  " + tr(
            "{title}. {words} Then {beer}.",
            title=title,
            words=words,
            beer=_after(each.after, write),
        )
        if each.settings:
            yield "    " + " ".join(f'--set {key}="{text}"' for key, text in each.settings.items())


def _after(after: Mapping[str, Range], write: Figures) -> str:
    """Return the forecasts after a cure."""
    told = []
    if "original_gravity" in after:
        told.append(
            tr("OG {gravity}", gravity=write(Kind.GRAVITY, after["original_gravity"].value))
        )
    if "final_gravity" in after:
        told.append(tr("FG {gravity}", gravity=write(Kind.GRAVITY, after["final_gravity"].value)))
    if "abv_percent" in after:
        told.append(tr("{alcohol} % alcohol", alcohol=write.number(after["abv_percent"].value, 1)))
    if "bitterness_ibu" in after:
        told.append(tr("{bitter:.0f} IBU", bitter=after["bitterness_ibu"].value))
    if "colour_srm" in after:
        told.append(write(Kind.BEER_COLOUR, after["colour_srm"].value))
    return ", ".join(told)
