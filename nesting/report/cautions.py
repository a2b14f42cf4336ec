"""Cautions that are usual in the trade, each with where it comes from."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """One caution, what it is about and its source."""

    about: str
    words: str
    source: str


CAUTIONS = (
    Caution(
        "Wood dust",
        "It can cause cancer. Extract it where it is made and wear a respirator; fillers and glue dust count too.",
        "IARC monographs, volume 62",
    ),
    Caution(
        "Epoxy",
        "It can make the skin allergic for good. Wear gloves and sleeves, keep it off the skin, take no solvent to "
        "clean skin, sand nothing before it has fully cured, and mix small lots: large ones heat up.",
        "HSE research report 79; small lots: common practice",
    ),
    Caution(
        "Blades and cutters",
        "Keep the guards on saws, planers and grinders. Support thin sheet on both sides of the cut.",
        "common practice",
    ),
    Caution(
        "Lifting",
        "Take a helper for whole sheets, blanks and long panels: they are heavy, whip, and catch the wind. Lean none "
        "where it can slide or fall.",
        "common practice",
    ),
    Caution(
        "Check before cutting",
        "Measure the true size, squareness and thickness of the stock first, and test a scrap of it: this plan "
        "believes what the job says. Take the lap from the measured thickness.",
        "common practice",
    ),
    Caution(
        "Not structural advice",
        "This plan says where material goes, not whether it is strong enough. Thickness, slope of scarfs and places "
        "of joints follow the designer of the boat or licensed advice. Nothing here is for aircraft.",
        "common practice",
    ),
    Caution(
        "Local rules",
        "Scantlings, flotation and registration follow the law where the boat is used.",
        "ISO 12217-3, 33 CFR 183 and Directive 2013/53/EU name their own scopes",
    ),
)

#: What is said where planks are ripped.
RIPPING = Caution(
    "Ripping",
    "Straighten one edge first. Rip with riving knife and guard in place, the fence set, and a push stick at hand; let "
    "nobody stand in line with the blade. Carry long stock on rollers or a table before and behind the saw; a helper "
    "holds it up and never pulls. Wood under strain closes on the blade or springs apart: stop the saw and wedge the "
    "cut. Let a scarf cure fully before it is ripped, and scrape hard glue off.",
    "common practice",
)

#: What the glue-up sheet says again.
GLUING = tuple(caution for caution in CAUTIONS if caution.about not in ("Blades and cutters", "Local rules"))
