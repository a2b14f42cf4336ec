"""How much glue, resin and cloth: published formulas, each with its source."""

#: Square metres that a kilogram of mixed glue covers: Gougeon, "The Gougeon Brothers on Boat Construction", p. 54.
GLUE_COVERS = 2.7
GLUE_SOURCE = 'Glue: 1 kg of mixed glue covers 2.7 m² (Gougeon, "The Gougeon Brothers on Boat Construction", p. 54).'

#: Litres of mixed resin per square metre and gram of cloth, and per square metre for three rolled coats, 15 % waste in
#: both: "Estimating Epoxy Amounts", Epoxyworks, turned into metric units.
RESIN_PER_GRAM, RESIN_PER_M2 = 0.00102, 0.306
#: The same as printed: US gallons per square foot and ounce per square yard, and per square foot.
GALLONS_PER_OUNCE, GALLONS_PER_FT2 = 0.00085, 0.0075
RESIN_SOURCE = (
    "Resin: litres = m² × (0.00102 × g/m² of cloth + 0.306), with three rolled coats and 15 % waste in it "
    '("Estimating Epoxy Amounts", Epoxyworks, in metric units).'
)


def glue_grams(area: float) -> float:
    """Return grams of mixed glue for a glued area in square millimetres, without waste."""
    return area / 1e6 / GLUE_COVERS * 1000


def resin_litres(area: float, cloth: float) -> float:
    """Return litres of mixed resin for square metres of cloth of some g/m²; 0 for resin alone."""
    return area * (RESIN_PER_GRAM * cloth + RESIN_PER_M2)


def resin_gallons(area: float, cloth: float) -> float:
    """Return US gallons for square feet of cloth of some oz/yd², as the formula was printed."""
    return area * (GALLONS_PER_OUNCE * cloth + GALLONS_PER_FT2)
