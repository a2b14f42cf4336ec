"""Glue, resin, cloth, timber by the foot, weights and work, against published figures."""

import csv
import io
from decimal import Decimal

import pytest
from good_blank_plan import blank_plan
from good_butt_plan import butt_plan
from sample_plan import BILGE, GUNWALE, MARINE, OLD, SPRUCE, TRANSOM, bilge, sample_plan

from nesting.model import Coating, Length, Plan, UsedLength
from nesting.report import consumables, shopping_list, timber_tally, weights, workload
from nesting.report.board_feet import FOOT, INCH
from nesting.report.consumables import coated_areas, glued_area
from nesting.report.glue import resin_gallons, resin_litres
from nesting.report.shopping import cost_of_spares
from nesting.report.weights import weighed_parts
from nesting.report.workload import metres_of_bevel, metres_of_cut, metres_of_glue_line

PLAN, BLANK, BUTT = sample_plan(), blank_plan(), butt_plan()

#: Square feet and ounces of cloth per square yard, gallons: the pram of "Estimating Epoxy Amounts", Epoxyworks.
PRAM = [(56, 12, 0.99), (61, 6, 0.77)]

#: Count, thickness, width (inches), length (feet): Danforth, "Mechanical Processes" (1910s), lumber bill of 2116 feet.
BILL = [(40, 2, 6, 16), (12, 0.5, 8, 12), (80, 1.5, 6, 16), (30, 1, 12, 14)]


def read(text):
    """Return the rows of a CSV by their column names."""
    return list(csv.DictReader(io.StringIO(text)))


def with_stock(plan: Plan, **changes: object) -> Plan:
    """Return the plan with all its sheets and lengths changed."""
    job = plan.job
    sheets = tuple(sheet.model_copy(update=changes) for sheet in job.sheets)
    lengths = tuple(length.model_copy(update=changes) for length in job.lengths)
    return plan.model_copy(update={"job": job.model_copy(update={"sheets": sheets, "lengths": lengths})})


@pytest.mark.parametrize(("area", "cloth", "gallons"), PRAM)
def test_resin_as_in_the_published_example(area: float, cloth: float, gallons: float) -> None:
    """A pram, outside and inside."""
    assert resin_gallons(area, cloth) == pytest.approx(gallons, abs=0.005)


def test_resin_for_the_whole_pram() -> None:
    """1.76 US gallons, as printed."""
    assert sum(resin_gallons(area, cloth) for area, cloth, _ in PRAM) == pytest.approx(1.76, abs=0.005)


def test_the_metric_formula_is_the_printed_one_in_other_units() -> None:
    """0.513 L/m2 at 203 g/m2; units: 3.785411784 L a US gallon, 0.09290304 m2, 33.905747 g/m2 an oz/yd2."""
    assert resin_litres(1, 203) == pytest.approx(0.513, abs=0.0005)
    for cloth in (0.0, 4.0, 6.0, 12.0):
        printed = resin_gallons(1, cloth) * 3.785411784 / 0.09290304
        assert resin_litres(1, cloth * 33.905747) == pytest.approx(printed, rel=0.005)


def test_resin_and_cloth_follow_what_the_job_says_is_coated() -> None:
    """Two of 0.65 m2 or so under cloth on the back and bare resin on the good face."""
    panels = (PLAN.job.panels[0].model_copy(update={"coated": Coating(good=0, back=203)}), PLAN.job.panels[1])
    plan = PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"panels": panels})})
    area = 2 * bilge().area / 1e6
    assert coated_areas(plan) == {0.0: pytest.approx(area), 203.0: pytest.approx(area)}
    total = read(consumables(plan))[-1]
    assert total["what"] == "Mixed resin in all"
    assert float(total["amount"]) == pytest.approx(area * (0.306 + 0.513), abs=0.01)


def test_without_a_word_on_coating_one_side_is_reckoned() -> None:
    """The list says that it is an if."""
    rows = read(consumables(PLAN))
    assert [row["what"].startswith("Mixed resin if one side of every panel") for row in rows] == [False, True, True]


def test_a_blanks_scarf_is_glued_once_however_many_panels_cross_it() -> None:
    """1200 x 5.5 x sqrt(65) square millimetres, and of butts 90 x their width."""
    assert glued_area(BLANK) == pytest.approx(1200 * 5.5 * 65**0.5)
    assert glued_area(BUTT) == pytest.approx(sum(90 * joint.width for joint in BUTT.joints))


def test_a_lumber_bill_comes_to_its_printed_feet() -> None:
    """2116 as sold; the true volume is 2068 (worked out from the same bill)."""
    lengths = tuple(
        Length(name=f"row {row}", material="pine", section=(width * INCH, thick * INCH), length=long * FOOT)
        for row, (_, thick, width, long) in enumerate(BILL)
    )
    used = tuple(
        UsedLength(id=f"L{row}-{number}", stock=f"row {row}", source="buy", length=long * FOOT)
        for row, (count, _, _, long) in enumerate(BILL)
        for number in range(count)
    )
    bill = PLAN.model_copy(update={"job": PLAN.job.model_copy(update={"lengths": lengths}), "used": used})
    rows = read(timber_tally(bill))
    assert sum(float(row["board_feet"]) for row in rows) == pytest.approx(2116, abs=0.05)
    assert sum(float(row["true_board_feet"]) for row in rows) == pytest.approx(2068, abs=0.05)
    assert sum(int(row["count"]) for row in rows) == 162


def test_timber_is_tallied_in_metres_and_a_ripped_plank_counts_once() -> None:
    """Four lengths of 3.6 m; as the sticks of one plank they are one."""
    (row,) = read(timber_tally(PLAN))
    assert (row["count"], row["metres"], row["section"]) == ("4", "14.4", "45 × 20")
    sticks = [used.model_copy(update={"plank": "P1", "stick": n}) for n, used in enumerate(PLAN.used[2:], 1)]
    (row,) = read(timber_tally(PLAN.model_copy(update={"used": (*PLAN.used[:2], *sticks)})))
    assert (row["count"], row["metres"]) == ("1", "3.6")


def test_a_square_metre_of_six_millimetre_gaboon_weighs_two_point_seven_kilograms() -> None:
    """450 kg/m3, 2.7 kg/m2 in 6 mm: merchants' lists. The transom is 0.5 x 0.3 m less a hole of 0.1 x 0.06."""
    parts = weighed_parts(with_stock(PLAN, density=450.0))
    assert parts[TRANSOM].kilograms == pytest.approx(2 * (0.15 - 0.006) * 2.7)


def test_a_joined_part_weighs_what_its_finished_volume_does() -> None:
    """The laps of its pieces are bevelled away: by half a lap at each end, of the width at the joint's middle."""
    parts = weighed_parts(with_stock(PLAN, density=450.0))
    assert parts[BILGE].kilograms == pytest.approx(2 * bilge().area / 1e6 * 2.7, rel=1e-4)
    assert parts[GUNWALE].kilograms == pytest.approx(2 * 5.0 * 0.045 * 0.020 * 450)


def test_the_weight_follows_the_measured_thickness() -> None:
    """The blank's sheets are 6 by name and 5.5 in truth: a floor of 1.0 x 0.3 m."""
    parts = weighed_parts(with_stock(BLANK, density=450.0))
    assert parts["floor"].kilograms == pytest.approx(0.3 * 5.5e-3 * 450)


def test_what_has_no_density_is_said_not_to_be_weighed() -> None:
    """No figure is made up."""
    rows = read(weights(PLAN))
    assert all(row["all_kg"] == "" and "no density" in row["note"] for row in rows[:3])
    assert rows[-1]["note"] == "without the parts not weighed"
    weighed = read(weights(with_stock(PLAN, density=450.0)))
    assert [row["note"] for row in weighed] == [""] * len(weighed)
    assert float(weighed[-1]["all_kg"]) == pytest.approx(sum(float(row["all_kg"]) for row in weighed[:-1]), abs=0.02)


def test_a_scarf_has_twice_as_much_bevel_as_glue_line() -> None:
    """As a river boat's floor: 42 ft of scarf, 84 ft of bevel (boatbuilder's blog, 2012)."""
    for plan in (PLAN, BLANK):
        assert metres_of_bevel(plan) == pytest.approx(2 * metres_of_glue_line(plan))
    assert metres_of_bevel(BUTT) == 0


def test_metres_of_cut_are_the_outlines_with_their_holes() -> None:
    """Two transoms of 2 x (500 + 300) with holes of 2 x (100 + 60)."""
    transoms = tuple(piece for piece in PLAN.pieces if piece.part == TRANSOM)
    assert metres_of_cut(PLAN.model_copy(update={"pieces": transoms})) == pytest.approx(2 * (1.6 + 0.32))


def test_the_work_is_told_in_figures() -> None:
    """Eight ends to bevel, eight cross-cuts of four pieces, four glue-ups."""
    rows = {row["what"]: row["amount"] for row in read(workload(PLAN))}
    assert (rows["Bevels"], rows["Cross-cuts in timber"], rows["Glue-ups"]) == ("8", "8", "4")


def test_the_shopping_list_goes_by_supplier_and_tells_spares_apart() -> None:
    """A spare sheet at 84.10 is not in the total; where only as many are to be had as needed there is none."""
    job = PLAN.job
    sheets = (job.sheets[0].model_copy(update={"supplier": "Yard", "spare": 1}), job.sheets[1])
    lengths = (job.lengths[0].model_copy(update={"supplier": "Mill", "spare": 2, "available": 4}),)
    plan = PLAN.model_copy(update={"job": job.model_copy(update={"sheets": sheets, "lengths": lengths})})
    first, second, total = read(shopping_list(plan))
    assert (first["supplier"], first["stock"], first["spare"]) == ("Mill", SPRUCE, "")
    assert (second["supplier"], second["stock"], second["spare"]) == ("Yard", MARINE, "1")
    assert total["cost"] == "123.30"
    assert cost_of_spares(plan) == Decimal("84.10")
    assert OLD not in shopping_list(plan)
