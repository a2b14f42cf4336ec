"""The timber of a plan: quickly for what is shown first, in earnest for what is bought."""

from dataclasses import dataclass

from nesting.bounds import shortages
from nesting.effort import Effort
from nesting.lengths import quick_lengths
from nesting.model import Bound, Job, NoPlanError, Share
from nesting.sheets import panel_problems


@dataclass(frozen=True)
class Timber:
    """Timber for all strips; ``bound`` is None if it was planned quickly, and nothing is proven."""

    share: Share
    bound: Bound | None


def quick_timber(job: Job, effort: Effort) -> Timber:
    """Return timber as soon as possible: in earnest only where the quick way finds none.

    Raises
    ------
    NoPlanError
        If some strips can't be made; it tells what is wrong with the panels too, all at once.
    """
    try:
        share = quick_lengths(job, effort)
        return Timber(*best_timber(job, effort)) if share is None else Timber(share, None)
    except NoPlanError as error:
        raise NoPlanError([*panel_problems(job), *shortages(job), *error.problems]) from None


def timber_in_earnest(quick: Timber, job: Job, effort: Effort) -> tuple[Share, Bound]:
    """Return the best timber that is found within its share of the effort, and what is proven of it."""
    return best_timber(job, effort) if quick.bound is None else (quick.share, quick.bound)


def best_timber(job: Job, effort: Effort) -> tuple[Share, Bound]:
    """Return timber as the exact search finds it, and what is proven of it."""
    from nesting.lengths import plan_lengths  # only now: it opens solvers and compiled loops

    return plan_lengths(job, effort)
