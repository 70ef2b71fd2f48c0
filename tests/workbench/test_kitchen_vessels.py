"""Pots and fermenters between kitchen and recipe."""

from dataclasses import replace

import pytest

from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.workbench.kitchen_vessels import (
    fermenter_edit,
    fermenter_record,
    measured_with,
    pot_edit,
    pot_record,
)


def test_a_pot_of_the_kitchen_brings_what_was_measured_with_it(porter):
    kettle = PotRecord("Jam kettle", volume="3.5 gal", evaporation="1.2 L/h")
    brewed = pot_edit(porter, kettle).apply(porter)
    assert brewed.pot.name == "Jam kettle"
    assert brewed.pot.volume.text == "3.5 gal"
    assert brewed.pot.volume.value == pytest.approx(13.249, abs=1e-3)
    assert brewed.process.evaporation.text == "1.2 L/h"
    # What the kitchen does not know stays as the recipe has it.
    assert brewed.pot.stove == porter.pot.stove
    assert brewed.process.cooling_constant == porter.process.cooling_constant


def test_what_stays_behind_in_a_pot_is_measured_with_it_and_comes_with_it(porter):
    kettle = PotRecord(
        "Jam kettle", volume="9 L", left_in_pot="0.6 L", cooling_constant="0.05 /min"
    )
    process = pot_edit(porter, kettle).apply(porter).process
    assert process.left_in_pot.text == "0.6 L"
    assert process.evaporation == porter.process.evaporation
    assert {name for name, _ in measured_with(kettle)} == {"left_in_pot", "cooling_constant"}
    assert pot_record(porter).left_in_pot == porter.process.left_in_pot.text


def test_what_was_measured_of_the_old_pot_does_not_stay_with_the_new_one(porter):
    bare = pot_edit(porter, PotRecord("Stock pot", volume="9 L")).apply(porter)
    assert bare.pot.diameter is None
    assert bare.pot.power is None


def test_a_pot_that_is_kept_and_taken_again_is_the_same(porter):
    again = pot_edit(porter, pot_record(porter)).apply(porter)
    assert again.pot == porter.pot
    assert again.process == porter.process


def test_a_fermenter_that_is_kept_and_taken_again_is_the_same(porter):
    assert fermenter_edit(porter, fermenter_record(porter)).apply(porter) == porter


def test_a_fermenter_without_a_size_is_kept_and_taken(porter):
    porter = replace(porter, fermenter=replace(porter.fermenter, volume=None))
    assert fermenter_record(porter).volume == ""
    taken = fermenter_edit(porter, FermenterRecord("Bucket")).apply(porter)
    assert taken.fermenter.volume is None
    assert taken.fermenter.kind == porter.fermenter.kind
