"""What is quoted as measured and stands in no row, for it is no beer that can be forecast."""

LEFT_OUT = (
    (
        "30 to 75 % of the alpha acid in the wort, between six breweries (Jacobsen et al., J. ASBC "
        "47, 1989), and no relation of it to gravity from 10.5 to 13.5 °P",
        "a spread of equipment in which an effect of a tenth would not show",
    ),
    (
        "laboratory figures of home brewers within a third of those computed, one 70 % off "
        "(told in a forum)",
        "a spread of many brews, none of them told",
    ),
    (
        "bitterness nearest the lowest of three formulas in batches of 20 to 80 L (told in a blog)",
        "no figure and no recipe",
    ),
    (
        "alpha acid of one variety 29 to 46 % higher in the best than in the worst of ten crops "
        "(trade table, told in a blog)",
        "no single crop is told; the ranges of the catalogue are wider",
    ),
    (
        "4.7 to 5.7 L an hour boiled off on outdoor gas (told in a forum)",
        "no kitchen's stove; what such a burner takes off has to be typed",
    ),
    (
        "10 to 24 % boiled off in an hour (told in a forum)",
        "a share of volumes that are not told",
    ),
    (
        "boiling darkens pale wort by half, three quarters with air (J. Inst. Brew., abstract)",
        "laboratory wort before and after one boil; the program has colours of beer",
    ),
    (
        "hops in a bag, as bitter as loose ones (one brewer's test, told in a blog)",
        "the program knows no bag",
    ),
    (
        "one wort in 21 laboratories, 1.1 to 1.4 EBC apart at 5 (Angelino, 2000)",
        "tells of laboratories, not of a beer",
    ),
    (
        "8 to 18 thousand million cells in a gram of dry yeast (Van den Berg and Van Landschoot, "
        "Cerevisia 28, 2003)",
        "the program's dose is that of makers' sheets",
    ),
    (
        "over 20 % of iso-alpha acid lost after 90 min (Kappler et al., J. Inst. Brew. 116, 2010)",
        "the curve was fitted to finished beer and holds that loss",
    ),
)
"""What was measured, and why it is left out."""
