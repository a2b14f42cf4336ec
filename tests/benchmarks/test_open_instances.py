"""The open instances as they are read; left out where there are none."""

import os
from pathlib import Path

import pytest

from benchmarks import chosen
from benchmarks.data import (
    MissingDataError,
    References,
    data_folder,
    irregular_bins,
    irregular_strips,
    one_dimensional,
    panels_study,
    rectangular_bins,
    references,
    splices_study,
    spread,
    spread_of_each,
)
from benchmarks.options import Options

FOLDER = os.environ.get("NESTING_DATA")
with_data = pytest.mark.skipif(not FOLDER, reason="reads open instances: NESTING_DATA does not say where they lie")


@pytest.fixture(scope="module")
def folder() -> Path:
    """Return the folder of open instances."""
    return data_folder(Path(FOLDER or ""))


@pytest.fixture(scope="module")
def published(folder: Path) -> References:
    """Return the published values."""
    return references(folder)


@pytest.mark.parametrize(("named", "told"), [(None, "--data FOLDER"), (Path("no/such/place"), "no/such/place")])
def test_a_missing_folder_is_told_with_the_remedy(named: Path | None, told: str) -> None:
    """None was named, or it is not there."""
    with pytest.raises(MissingDataError, match=told):
        data_folder(named)


def test_a_missing_file_is_told_by_name(tmp_path: Path) -> None:
    """And the folder in which it should be."""
    with pytest.raises(MissingDataError, match=r"no file irregular_strip_classic\.json in"):
        irregular_strips(tmp_path, ["classic"])


def test_a_spread_is_even_and_starts_with_the_first() -> None:
    """Of fewer than asked for it is all."""
    assert spread(range(10), 3) == [0, 3, 6]
    assert spread(range(2), 3) == [0, 1]
    assert spread_of_each(["a1", "a2", "b1", "a3"], lambda name: name[0], 1) == ["a1", "b1"]


@with_data
def test_a_strip_is_read_with_its_quantities_and_angles(folder: Path) -> None:
    """Swim: 48 pieces that may lie at 0 and 180 degrees (as in the file)."""
    swim = next(one for one in irregular_strips(folder) if one.name == "swim")
    assert sum(item.quantity for item in swim.items) == 48
    assert all(item.rotations == (0.0, 180.0) for item in swim.items)
    assert (swim.family, swim.optimal_length) == ("classic", None)


@with_data
def test_a_variant_is_an_instance_of_its_own(folder: Path) -> None:
    """With the same items and other angles."""
    found = {one.name: one for one in irregular_strips(folder, ["gardeyn"])}
    assert found["gardeyn0_c"].area == found["gardeyn0"].area
    assert {item.rotations for item in found["gardeyn0_c"].items} == {None}
    assert found["gardeyn0"].items[0].rotations == (0.0, 90.0, 180.0, 270.0)


@with_data
def test_a_strip_with_a_known_optimum_is_full_there(folder: Path) -> None:
    """A jigsaw of a square of 100: its parts are the square."""
    (jigsaw,) = irregular_strips(folder, ["jigsaw"])
    assert jigsaw.optimal_length == 100
    assert jigsaw.area == pytest.approx(100 * 100, rel=1e-9)


@with_data
def test_bins_with_a_known_optimum_are_full_there(folder: Path) -> None:
    """They were cut from whole bins."""
    found = irregular_bins(folder)
    assert len(found) == 102
    for one in found:
        if one.optimum is not None:
            assert one.area == pytest.approx(one.optimum * one.width * one.height, rel=1e-9), one.name


@with_data
def test_rectangles_and_bins_are_read_with_what_is_available(folder: Path) -> None:
    """Ten classes with five kinds of bin each; stock of limited number may be turned (assumed by the data)."""
    found = {one.name: one for one in rectangular_bins(folder)}
    first = found["class1_n20_1"]
    assert (len(first.bins), first.bins[0].available, first.kind, first.rotation) == (5, None, "class1_n20", False)
    assert sum(item.quantity for item in first.items) == 20
    assert (found["m1a"].bins[0].available, found["m1a"].rotation) == (2, True)


@with_data
def test_bounds_of_one_dimensional_instances_meet_where_an_optimum_is_known(folder: Path) -> None:
    """And none is below what the sizes add up to."""
    for one in one_dimensional(folder):
        total = sum(size * quantity for size, quantity in one.items)
        assert -(-total // one.capacity) <= one.bounds[1], one.name
        assert one.optimum is None or one.bounds == (one.optimum, one.optimum), one.name


@with_data
def test_the_study_of_splices_is_read_whole(folder: Path) -> None:
    """75 jobs; the first as it stands in its file."""
    jobs = splices_study(folder)
    first = jobs[0]
    assert len(jobs) == 75
    assert (first.lap, first.kerf, first.least_piece, first.joint_cost, first.study_cost) == (300, 3, 650, 80, 7691)
    assert first.strips[0].no_joint == ((2523, 3023),)
    assert (first.shift[0].a, first.shift[0].b, first.shift[0].distance) == ((0, 0), (0, 1), 800)


@with_data
def test_the_study_of_panels_is_read_whole(folder: Path) -> None:
    """Five jobs; laps agree with slope and thickness."""
    jobs = panels_study(folder)
    assert [job.name for job in jobs] == ["canoe49", "pram31", "rowing55", "cat42", "kits20"]
    assert all(job.lap == job.slope * job.thickness for job in jobs)
    assert jobs[0].study["divided"] == 200.9


@with_data
def test_published_densities_are_found_by_instance_and_source(published: References) -> None:
    """Swim: Elkeran 2013 as quoted by Gardeyn et al. 2025, and their own (table 3)."""
    quoted, seen = published.density("swim", "elkeran2013"), published.density("swim", "gardeyn2025")
    assert quoted is not None
    assert seen is not None
    assert (quoted.value, quoted.told) == (74.49, "elkeran2013, seen where another source quotes it")
    assert (seen.value, seen.told) == (78.26, "gardeyn2025, seen in the source")
    assert published.density("shapes2", "wang2017") is None


@with_data
def test_published_numbers_of_bins_have_a_proven_lower_bound(published: References) -> None:
    """The first of class 1: 8 bins (Operations Research group, University of Bologna)."""
    found = published.bins("class1_n20_1")
    assert found is not None
    assert (found.lower, found.value) == (8, 8)
    assert published.all_of("class1_n20", source="or_bologna")[0].value == 71


@with_data
@pytest.mark.parametrize(
    ("choose", "some", "everything"),
    [
        (chosen.strips, 9, 28),
        (chosen.bins, 20, 99),
        (chosen.rectangles, 54, 376),
        (chosen.lengths, 91, 538),
        (chosen.splices, 15, 75),
        (chosen.panels, 5, 5),
    ],
)
def test_the_spread_is_fixed_and_part_of_all(choose: object, some: int, everything: int, folder: Path) -> None:
    """The same names at every run, none twice."""
    assert callable(choose)
    names = [one.name for one in choose(Options(data=folder))]
    all_names = [one.name for one in choose(Options(data=folder, everything=True))]
    assert (len(names), len(all_names)) == (some, everything)
    assert names == [one.name for one in choose(Options(data=folder))]
    assert len(set(all_names)) == everything
    assert set(names) <= set(all_names)
