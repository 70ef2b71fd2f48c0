"""What an odd reading says, as lines that can be read out on the phone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from designer.brewday.explaining.asked import GravitySample, Scale
from designer.brewday.explaining.explained import Advised, Cure, Explained, LikelyCause
from designer.brewday.explaining.how_likely import how_likely
from designer.brewday.results import Range
from designer.recipe.message import Message
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units import ShownUnits, show
from designer.units.quoting import one_line
from designer.wort.density import plato_from_gravity

Show = Callable[[Kind, float], str]


def shown_in(units: ShownUnits, *, plato: bool = False) -> Show:
    """Return what writes a figure in these units, gravities in °P if they were read so."""

    def written(kind: Kind, value: float) -> str:
        if kind is Kind.GRAVITY and plato:
            return f"{float(plato_from_gravity(value)):.1f} °P"
        return show(kind, value, units, rounded=True)

    return written


def reading_lines(told: Explained, sample: GravitySample, shown: ShownUnits) -> list[str]:
    """Return the answer to a reading as lines."""
    write = shown_in(shown, plato=sample.scale is not Scale.SG)
    return [
        _read(told, sample, write),
        _said(told.title, write) + ".",
        _said(told.words, write),
        *_causes(told.causes, write),
        *_test(told.test, write),
        *_cures(told.cures, write),
    ]


def _said(message: Message, write: Show) -> str:
    return one_line(message.said(show=write))


def _read(told: Explained, sample: GravitySample, write: Show) -> str:
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


def _causes(causes: tuple[LikelyCause, ...], write: Show) -> Iterator[str]:
    if not causes:
        return
    yield ""
    yield tr("What may lie behind it:")
    for each in causes:
        yield "  " + tr(
            "{title}: {share:.0f} %, {likely}. {words} Then {beer}. To tell: {how}.",
            title=_said(each.title, write),
            share=100.0 * each.probability,
            likely=_said(how_likely(each.probability), write),
            words=_said(each.words, write),
            beer=_beer(each, write),
            how=_said(each.how_to_tell, write),
        )


def _beer(cause: LikelyCause, write: Show) -> str:
    gravity, alcohol = write(Kind.GRAVITY, cause.original_gravity), cause.abv_percent
    if cause.bitterness_ibu is None:
        return tr("OG {gravity}, {alcohol:.1f} % alcohol", gravity=gravity, alcohol=alcohol)
    return tr(
        "OG {gravity}, {alcohol:.1f} % alcohol, {bitter:.0f} IBU",
        gravity=gravity,
        alcohol=alcohol,
        bitter=cause.bitterness_ibu,
    )


def _test(test: Advised | None, write: Show) -> Iterator[str]:
    if test is None:
        return
    yield ""
    yield tr(
        "First, the cheapest test ({minutes:.0f} min): {message}",
        minutes=test.minutes,
        message=_said(test.message, write),
    )
    for each in test.outcomes:
        yield f"  {_said(each.shows, write)}: {_said(each.says, write)}"


def _cures(cures: tuple[Cure, ...], write: Show) -> Iterator[str]:
    if not cures:
        return
    yield ""
    yield tr("What can be done:")
    for each in cures:
        title, words = _said(each.title, write), _said(each.words, write)
        if each.off is not None:
            off = _said(each.off, write)
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


def _after(after: Mapping[str, Range], write: Show) -> str:
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
