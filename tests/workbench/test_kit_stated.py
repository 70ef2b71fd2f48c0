"""What a caller says of a kit is understood as it is said."""

import pytest

from designer.errors import RefusedInputError
from designer.recipe.choices import FermentableKind as Kind
from designer.workbench.kit_stated import band_stated, extract_stated


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("1 kg + 400 g dry", [(1.0, Kind.LIQUID_EXTRACT), (0.4, Kind.DRY_EXTRACT)]),
        ("2 x 1.5 kg tin", [(1.5, Kind.LIQUID_EXTRACT)] * 2),
        ("2 tins of 1,5 kg, 500 g sugar", [(1.5, Kind.LIQUID_EXTRACT)] * 2 + [(0.5, Kind.SUGAR)]),
        ("1.7 kg hopped tin and 1 kg dry malt extract",
         [(1.7, Kind.HOPPED_KIT), (1.0, Kind.DRY_EXTRACT)]),
        ("3 lb dark syrup", [(1.36077711, Kind.LIQUID_EXTRACT)]),
        ("1.5kg", [(1.5, Kind.LIQUID_EXTRACT)]),
        ("1,5 kg Dose + 400 g trocken", [(1.5, Kind.LIQUID_EXTRACT), (0.4, Kind.DRY_EXTRACT)]),
        ("1,7 kg gehopfter Sirup und 1 kg Zucker", [(1.7, Kind.HOPPED_KIT), (1.0, Kind.SUGAR)]),
    ],
)  # fmt: skip
def test_tins_bags_and_sugar_are_told_apart(said, meant):
    found = extract_stated(said)
    assert [form for _, form in found] == [form for _, form in meant]
    assert [kg for kg, _ in found] == pytest.approx([kg for kg, _ in meant])


@pytest.mark.parametrize(
    ("said", "says"),
    [
        ("a tin", "write it as 1.5 kg tin"),
        ("", "write it as 1.5 kg tin"),
        ("1 kg rice", "say tin, dry or sugar"),
        ("1 L", "“1 L”"),
        ("900 kg", "outside 10 g to 100 kg"),
        ("99 x 1 kg", "is not read"),
    ],
)
def test_what_is_no_kit_is_refused_with_a_way_out(said, says):
    with pytest.raises(RefusedInputError, match=says):
        extract_stated(said)


def test_the_band_on_the_box_is_two_gravities_or_one():
    assert band_stated("1.044 to 1.048") == pytest.approx((1.044, 1.048))
    assert band_stated("1.044..1.048") == pytest.approx((1.044, 1.048))
    assert band_stated("1.046") == pytest.approx((1.046, 1.046))
    assert band_stated("11 to 12 °P") == pytest.approx((1.0442, 1.0484), abs=2e-4)
    with pytest.raises(RefusedInputError, match=r"outside 1\.005 to 1\.2"):
        band_stated("0.998")
