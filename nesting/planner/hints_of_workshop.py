"""Hints on the workshop's habits and the joints."""

from collections.abc import Iterator

from nesting.model import Job, JointRule, Problem


def no_kerf(job: Job) -> Iterator[Problem]:
    """Hint at a saw that removes nothing, where something is sawn with it."""
    kerf = job.workshop.kerf
    sawn = (("sheet", kerf.sheet, job.panels), ("crosscut", kerf.crosscut, job.strips))
    if saws := [saw for saw, width, parts in sawn if parts and width == 0]:
        yield Problem(
            code="hint-kerf",
            where="workshop, kerf",
            path=("workshop", "kerf", *saws[:1]),
            reason=f"it is 0 ({' and '.join(saws)}): parts lie edge to edge, and every cut takes from one of them",
            remedy="Give the width of your saw's cut; 2 to 3.2 mm are common.",
        )


def short_least_piece(job: Job) -> Iterator[Problem]:
    """Hint at a joint whose lap or strap is longer than its least piece, which therefore does not count."""
    for name, rule in job.joints.items():
        band, called = _longest_band(job, name, rule), "lap" if rule.kind == "scarf" else "strap"
        if band > rule.least_piece:
            yield Problem(
                code=f"hint-{called}",
                where=f'joint "{name}", least_piece',
                path=("joints", name, "least_piece"),
                reason=f"its {called} of {band:g} mm is longer than the least piece of {rule.least_piece:g} mm, "
                f"which is raised to the {called}",
                remedy=f"Give the least piece that you want between joints, at least a {called}.",
            )


def _longest_band(job: Job, name: str, rule: JointRule) -> float:
    """Return the longest lap or strap that a rule makes in this job; 0 if nothing is joined by it."""
    thick = [panel.thickness for panel in job.panels if panel.joint == name]
    thick += [strip.bevelled for strip in job.strips if strip.joint == name]
    return max((rule.band(thickness) for thickness in thick), default=0.0)
