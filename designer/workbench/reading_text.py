"""What an odd reading says, as lines that can be read out on the phone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from designer.brewday.explaining.asked import GravitySample, Scale
from designer.brewday.explaining.explained import Advised, Cure, Explained, LikelyCause
from designer.brewday.explaining.how_likely import how_likely
from designer.brewday.results import Range
from designer.recipe.message import Message
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.units import ShownUnits, show
from designer.units.quoting import one_line
from designer.wort.density import plato_from_gravity


@dataclass(frozen=True, slots=True)
class Written:
    """Writes figures in the units that are shown, gravities in °P if they were read so."""

    units: ShownUnits
    plato: bool = False

    def __call__(self, kind: Kind, value: float) -> str:
        """Return a figure as it is written."""
        if kind is Kind.GRAVITY and self.plato:
            return f"{float(plato_from_gravity(value)):.1f} °P"
        return show(kind, value, self.units, rounded=True)

    def typed(self, kind: Kind, quantity: Quantity) -> str:
        """Return what is weighed or poured: as a scale has it, in other units if they are shown."""
        metric = self.units is ShownUnits.METRIC
        return quantity.text if metric else show(kind, quantity.value, self.units, rounded=True)

    def said(self, message: Message) -> str:
        """Return a message in one line."""
        return one_line(message.said(self, self.typed))


def reading_lines(told: Explained, sample: GravitySample, shown: ShownUnits) -> list[str]:
    """Return the answer to a reading as lines."""
    write = Written(shown, plato=sample.scale is not Scale.SG)
    return [
        _read(told, sample, write),
        write.said(told.title) + ".",
        write.said(told.words),
        *_causes(told.causes, write),
        *_test(told.test, write),
        *_cures(told.cures, write),
    ]


def _read(told: Explained, sample: GravitySample, write: Written) -> str:
    """Return what was read, how warm, and what that is at 20 °C."""
    scale = {Scale.SG: "{0:.3f}", Scale.PLATO: "{0:.1f} °P", Scale.BRIX: "{0:.1f} °Bx"}
    read = scale[sample.scale].format(sample.shown)
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


def _causes(causes: tuple[LikelyCause, ...], write: Written) -> Iterator[str]:
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


def _beer(cause: LikelyCause, write: Written) -> str:
    gravity, alcohol = write(Kind.GRAVITY, cause.original_gravity), cause.abv_percent
    if cause.bitterness_ibu is None:
        return tr("OG {gravity}, {alcohol:.1f} % alcohol", gravity=gravity, alcohol=alcohol)
    return tr(
        "OG {gravity}, {alcohol:.1f} % alcohol, {bitter:.0f} IBU",
        gravity=gravity,
        alcohol=alcohol,
        bitter=cause.bitterness_ibu,
    )


def _test(test: Advised | None, write: Written) -> Iterator[str]:
    if test is None:
        return
    yield ""
    yield tr(
        "First, the cheapest test ({minutes:.0f} min): {message}",
        minutes=test.minutes,
        message=write.said(test.message),
    )
    for each in test.outcomes:
        yield f"  {write.said(each.shows)}: {write.said(each.says)}"


def _cures(cures: tuple[Cure, ...], write: Written) -> Iterator[str]:
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


def _after(after: Mapping[str, Range], write: Written) -> str:
    """Return the forecasts after a cure."""
    told = []
    if "original_gravity" in after:
        told.append(
            tr("OG {gravity}", gravity=write(Kind.GRAVITY, after["original_gravity"].value))
        )
    if "final_gravity" in after:
        told.append(tr("FG {gravity}", gravity=write(Kind.GRAVITY, after["final_gravity"].value)))
    if "abv_percent" in after:
        told.append(tr("{alcohol:.1f} % alcohol", alcohol=after["abv_percent"].value))
    if "bitterness_ibu" in after:
        told.append(tr("{bitter:.0f} IBU", bitter=after["bitterness_ibu"].value))
    if "colour_srm" in after:
        told.append(tr("{colour:.0f} SRM", colour=after["colour_srm"].value))
    return ", ".join(told)
