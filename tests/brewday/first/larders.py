"""A kitchen, a larder of a few lines, and what is to be brewed of them."""

from designer.brewday.first.amounts import Task
from designer.brewday.first.grist import best_grist
from designer.brewday.first.larder import Aim, Larder, Part, Role
from designer.library.catalogue import (
    find_fermentable,
    find_hop,
    find_yeast,
    new_fermentable,
    new_hop,
    new_yeast,
)
from designer.recipe.document import Fermenter, Pot, Process, Recipe
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.units import ShownUnits
from designer.workbench.first_scale import scale_for


def malt(name):
    return new_fermentable(find_fermentable(name))


def hop(name):
    return new_hop(find_hop(name))


def kitchen(pot_l=9.0, fermenter_l=12.0, **process):
    return Recipe(
        pot=Pot(volume=typed(Kind.VOLUME, pot_l)),
        fermenter=Fermenter(volume=typed(Kind.VOLUME, fermenter_l)),
        process=Process(**process),
    )


BASE = Part(malt("Light dry malt extract"), Role.BASE)
CRYSTAL = Part(malt("Crystal malt 60 °L"), Role.CRYSTAL)
ROAST = Part(malt("Chocolate malt"), Role.ROAST)
SUGAR = Part(malt("Table sugar (sucrose)"), Role.SUGAR, (0.05, 0.10))
ENGLISH = new_yeast(find_yeast("Dry English ale yeast", "dry"))
FAR = new_yeast(find_yeast("American ale, neutral", "dry"))
LARDER = Larder(
    bases=(BASE,),
    beside=(None,),
    crystals=((CRYSTAL,), None),
    roasts=(None, (ROAST,)),
    sugars=(None, SUGAR),
    yeasts=((ENGLISH, 0.0), (FAR, 0.0)),
    bittering=((hop("Challenger"), 0.0),),
    late=(hop("East Kent Golding"),),
    usual={
        Role.CRYSTAL: (0.05, 0.15),
        Role.ROAST: (0.02, 0.10),
        Role.SUGAR: (0.0, 0.10),
        Role.BODY: (0.0, 0.04),
    },
    late_g_l=1.0,
    dry_g_l=1.5,
)


def aim(og=1.045, fg=1.011, ibu=30.0, srm=10.0, **others):
    near = {
        "original_gravity": og,
        "final_gravity": fg,
        "abv_percent": 131.25 * (og - fg),
        "bitterness_ibu": ibu,
        "colour_srm": srm,
    }
    return Aim(near, **{"original_gravity": og, **others})


def task(of=None, where=None, **others):
    of = of or aim()
    grist = best_grist(LARDER, of)
    return Task(
        where or kitchen(),
        LARDER,
        of,
        grist,
        LARDER.bittering[0][0],
        LARDER.late,
        scale_for(ShownUnits.METRIC),
        **others,
    )
