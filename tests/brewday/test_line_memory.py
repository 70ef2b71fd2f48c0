"""What is made of a line is made once, and is that of the line as it stands."""

from dataclasses import replace

import numpy as np

from designer.brewday.hop_inputs import hops_in
from designer.brewday.inputs import gather
from designer.brewday.line_memory import MOST_KEPT, made_once
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import LatinHypercube, Nominal
from designer.recipe.quantity import Kind
from designer.units import read


def test_an_unchanged_line_is_not_worked_out_again(harbour_porter):
    first = gather(harbour_porter, Nominal())
    again = gather(replace(harbour_porter, name="Another"), Nominal())
    assert all(a is b for a, b in zip(first.hops, again.hops, strict=True))
    dry = [place for place, each in enumerate(first.extracts) if not each.is_grain]
    assert dry
    assert all(first.extracts[place] is again.extracts[place] for place in dry)


def test_plain_figures_and_samples_do_not_mix(harbour_porter):
    for sampler, size in ((Nominal(), 1), (LatinHypercube(32), 32), (LatinHypercube(64), 64)):
        for hop in hops_in(harbour_porter, sampler):
            assert np.size(hop.alpha_mg) == size


def test_the_tolerances_of_a_line_are_told_each_time(harbour_porter):
    first, again = LatinHypercube(32), LatinHypercube(32)
    gather(harbour_porter, first)
    gather(harbour_porter, again)
    assert list(first.tolerances.items()) == list(again.tolerances.items())


def test_a_changed_line_and_a_changed_day_are_worked_out_anew(harbour_porter):
    before = hops_in(harbour_porter, Nominal())
    hop = replace(harbour_porter.hops[0], amount=read(Kind.MASS, "33 g"))
    changed = replace(harbour_porter, hops=(hop, *harbour_porter.hops[1:]))
    assert hops_in(changed, Nominal())[0].mass_kg == 0.033
    process = replace(harbour_porter.process, hop_absorption=read(Kind.ABSORPTION, "9 L/kg"))
    drier = hops_in(replace(harbour_porter, process=process), Nominal())
    assert drier[0].held_l == 9.0 * drier[0].mass_kg != before[0].held_l
    assert hops_in(harbour_porter, Nominal())[0].held_l == before[0].held_l


def test_only_so_much_is_kept_and_what_was_forgotten_is_made_again():
    lines = [object() for _ in range(MOST_KEPT + 50)]
    made = []

    def make(_):
        made.append(None)
        return len(made)

    first = made_once(lines[0], (), Nominal(), make)
    assert made_once(lines[0], (), Nominal(), make) == first
    assert made_once(lines[0], (1,), Nominal(), make) == first + 1
    for line in lines[1:]:
        made_once(line, (), Nominal(), make)
    asked = len(made)
    assert made_once(lines[0], (1,), Nominal(), make) == asked + 1


def test_a_forecast_is_the_same_whatever_was_asked_before(harbour_porter):
    first = look_ahead(harbour_porter)
    hop = replace(harbour_porter.hops[0], amount=read(Kind.MASS, "33 g"))
    look_ahead(replace(harbour_porter, hops=(hop, *harbour_porter.hops[1:])))
    assert look_ahead(harbour_porter).forecasts == first.forecasts
