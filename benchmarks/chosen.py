"""Which instances each benchmark runs: a fixed spread, or all."""

from collections.abc import Sequence

from .data import (
    BinInstance,
    CuttingInstance,
    PanelsInstance,
    RectangularInstance,
    SpliceInstance,
    StripInstance,
    irregular_bins,
    irregular_strips,
    one_dimensional,
    panels_study,
    rectangular_bins,
    splices_study,
    spread,
    spread_of_each,
)
from .options import Options

#: The strips for which several papers give averages.
COMMON_STRIPS = ("dagli", "fu", "jakobs1", "mao", "shapes0", "shapes2", "shirts", "swim", "trousers")


def strips(options: Options) -> Sequence[StripInstance]:
    """Return the strips for which there are published averages, or all."""
    found = irregular_strips(options.folder)
    return options.spread_or_all(found, lambda all_of: [one for one in all_of if one.name in COMMON_STRIPS])


def bins(options: Options) -> Sequence[BinInstance]:
    """Return twenty of the irregular bin instances with a known optimum, spread over their classes, or all such."""
    found = [one for one in irregular_bins(options.folder) if one.optimum is not None]
    found.sort(key=lambda one: (one.kind, one.family, one.name))
    return options.spread_or_all(found, lambda all_of: spread(all_of, 20))


def rectangles(options: Options) -> Sequence[RectangularInstance]:
    """Return one instance of each class and size and of the other files ten and ten, or all."""
    found = rectangular_bins(options.folder)
    classes = [one for one in found if one.family == "classes"]
    others = [one for one in found if one.family != "classes"]
    some = [*spread_of_each(classes, lambda one: one.kind, 1), *spread_of_each(others, lambda one: one.family, 10)]
    return options.spread_or_all(found, lambda _: some)


def lengths(options: Options) -> Sequence[CuttingInstance]:
    """Return up to twenty one-dimensional instances of each family, or all."""
    found = one_dimensional(options.folder)
    return options.spread_or_all(found, lambda all_of: spread_of_each(all_of, lambda one: one.family, 20))


def splices(options: Options) -> Sequence[SpliceInstance]:
    """Return five jobs of each size of the study of splices, or all."""
    found = splices_study(options.folder)
    return options.spread_or_all(found, lambda all_of: spread_of_each(all_of, lambda one: one.family, 5))


def panels(options: Options) -> Sequence[PanelsInstance]:
    """Return the jobs of the study of panels."""
    return panels_study(options.folder)
