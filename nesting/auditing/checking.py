"""The whole audit, in the order in which a plan is read."""

from collections.abc import Iterator

from nesting.model import Job, Plan

from .areas import areas
from .asked import asked, own_job
from .blanks import blanks
from .findings import Finding, capped
from .joints import joints
from .long_planks import long_planks
from .money import money
from .names import names
from .neighbours import neighbours
from .panels import panels
from .parts import parts
from .register import Register
from .sheets import sheets
from .stock import stock
from .straps import straps
from .timber import timber
from .ways import ways


def audit(plan: Plan, job: Job | None = None) -> tuple[Finding, ...]:
    """Return all that is wrong with a plan; nothing at all means that it keeps every rule.

    Every figure of the plan that can be worked out from its job and its layout is worked out anew, with plane
    geometry and plain arithmetic; no code is shared with the making of plans. What can't be told from a plan alone
    is whether its bound is proven, beyond that the plan itself does not refute it, and what its offcuts are worth.

    Parameters
    ----------
    plan : Plan
    job : Job or None
        The job as it was asked; with it the plan is also checked to have been made for that job.
    """
    return capped(_findings(Register(plan), job))


def _findings(register: Register, job: Job | None) -> Iterator[Finding]:
    if job is not None:
        yield from asked(register, job)
    yield from own_job(register)
    yield from names(register)
    yield from parts(register)
    yield from panels(register)
    yield from stock(register)
    yield from blanks(register)
    yield from sheets(register)
    yield from timber(register)
    yield from long_planks(register)
    yield from joints(register)
    yield from straps(register)
    yield from neighbours(register)
    yield from money(register)
    yield from areas(register)
    yield from ways(register)
