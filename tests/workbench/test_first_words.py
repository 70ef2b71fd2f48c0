"""A beer told in plain German or French words is read as in English."""

import pytest

from designer.workbench.first_words import read_words

TOLD = [
    ("dunkles Weizen, wenig bitter", "Dunkles Weissbier, softer than usual"),
    ("helles Lager, leicht", "International Pale Lager, weaker than usual"),
    ("ein starkes dunkles Bier mit Schokolade", "strong, dark brown, tasting of roast"),
    ("süßes Stout", "Sweet Stout"),
    ("Best Bitter, nicht zu süß", "Best Bitter, drier than usual"),
    ("malziges Bockbier", "Dunkles Bock, sweeter than usual"),
    ("trockenes Pils, sehr hopfig", "German Pils, drier than usual, with much scent of hops"),
    ("Haferstout ohne Röstmalz", "Oatmeal Stout"),
    ("bernsteinfarbenes Bier mit Karamell", "deep amber, tasting of toffee"),
    ("Weihnachtsbier mit Rosinen", "strong, tasting of dried fruit"),
    ("kein bitteres Bier", "soft"),
    ("rundes braunes Bier, kaum bitter", "sweet, soft, brown"),
    ("brune légère, peu amère", "weak, soft, brown"),
    ("blonde légère", "Blonde Ale, weaker than usual"),
    ("une bière ambrée et ronde, goût de caramel", "sweet, deep amber, tasting of toffee"),
    ("blanche aux agrumes", "Witbier, tasting of orange peel"),
    ("stout à l'avoine, pas trop sucré", "Oatmeal Stout, drier than usual"),
    ("rousse irlandaise", "Irish Red Ale"),
    ("bière de Noël forte, raisins secs", "strong, tasting of dried fruit"),
    ("IPA, moins amère", "American IPA, softer than usual"),
    ("noire et sèche, notes de café", "dry, nearly black, tasting of roast"),
    ("lager blonde, très houblonnée", "International Pale Lager, with much scent of hops"),
    ("triple belge pas trop forte", "Belgian Tripel, weaker than usual"),
    ("porter doux au chocolat", "English Porter, sweeter than usual, tasting of roast"),
]


@pytest.mark.parametrize(("words", "said"), TOLD, ids=[words for words, _ in TOLD])
def test_plain_words_are_understood_in_german_and_french(words, said):
    reading = read_words(words)
    assert reading.said.text == f"read as: {said}"
    assert reading.unread == ""
