"""Hints on sheets and lengths."""

from collections.abc import Iterator, Sequence

from nesting.model import Job, Length, Problem, Sheet, length_serves, sheet_serves

#: No sheet or length of timber is carried about that is longer (from memory); 1000 inches are 25.4 m.
LONGEST_LIKELY = 25_000.0

#: A whole sheet or length below this is hardly sold; the smallest model-maker's sheets are some 300 mm (from memory).
SHORTEST_LIKELY = 300.0

#: More of a sheet than this is hardly ever trimmed off: 10 mm on each edge of 2440 x 1220 mm are 2.4 %.
MOST_TRIM = 0.25

#: Millimetres of a step between two sheets at a joint that fairing hardly takes off; common practice.
MOST_STEP = 0.3

Stock = tuple[tuple[str, int], Sheet | Length]


def strange_sizes(job: Job) -> Iterator[Problem]:
    """Hint at whole sheets and lengths so long or so short that their figures may be in other units."""
    for path, item in _stock(job):
        longest = item.length if isinstance(item, Length) else max(item.size or (1000.0,))
        if longest > LONGEST_LIKELY:
            reason = f"it is {longest / 1000:g} m long: figures in millimetres, where the job's units are larger?"
            yield _hint("units", path, item, reason, 'Check units = "..." and the figures.')
        elif longest < SHORTEST_LIKELY:
            reason = f"it is only {longest:g} mm long: figures in inches, feet or metres, where the job says otherwise?"
            yield _hint("units", path, item, reason, 'Check units = "..." and the figures.')


def heavy_trim(job: Job) -> Iterator[Problem]:
    """Hint at whole sheets of which the trim leaves less than three quarters, if it leaves anything."""
    for index, sheet in enumerate(job.sheets):
        if sheet.size is None:
            continue
        length, width = sheet.size
        left = [side - 2 * job.workshop.trim for side in sheet.size]
        share = 1 - left[0] * left[1] / (length * width)
        if min(left) > 0 and share > MOST_TRIM:
            reason = f"a trim of {job.workshop.trim:g} mm on each edge takes {100 * share:.0f} % of it"
            yield _hint("trim", ("sheets", index), sheet, reason, "Check trim in [workshop], and the size.")


def no_price(job: Job) -> Iterator[Problem]:
    """Hint at stock that is to be bought for nothing."""
    for path, item in _stock(job):
        if item.source == "buy" and item.price == 0:
            remedy = 'Give its price, or source = "rack" if it is there already.'
            yield _hint("price", path, item, "it is to be bought, yet has no price: it will be used as if free", remedy)


def breaks_out_of_reach(job: Job) -> Iterator[Problem]:
    """Hint at price breaks from more sheets on than there are."""
    for index, sheet in enumerate(job.sheets):
        beyond = [step.at_least for step in sheet.price_breaks if sheet.available and step.at_least > sheet.available]
        if beyond:
            reason = f"its price drops from {beyond[0]} on, yet only {sheet.available} are there"
            yield _hint("break", ("sheets", index), sheet, reason, "Check available and price_breaks.")


def unlimited_offcuts(job: Job) -> Iterator[Problem]:
    """Hint at offcuts, and stock on the rack, of which there are taken to be as many as needed."""
    for path, item in _stock(job):
        offcut = isinstance(item, Sheet) and item.outline is not None
        if item.available is None and (offcut or item.source == "rack"):
            what = "an offcut" if offcut else "on the rack"
            reason = f"it is {what}, yet without a number as many are taken as are needed"
            yield _hint("available", path, item, reason, "Add available = 1, or as many as there are.")


def dearer_twins(job: Job) -> Iterator[Problem]:
    """Hint at stock that is never bought, as the very same is there for less, or as cheaply, without limit."""
    stock = list(_stock(job))
    for place, (path, item) in enumerate(stock):
        for other_place, (_, other) in enumerate(stock):
            cheaper = other.price < item.price or (other.price == item.price and other_place < place)
            if cheaper and other.available is None and _same_but_for_price(item, other):
                reason = f'it is never bought: "{other.name}" is the same for {other.price:.2f}, as many as needed'
                remedy = "Leave it out, or say how many there are of the other with available = ..."
                yield _hint("twin", path, item, reason, remedy)
                break


def useless_stock(job: Job) -> Iterator[Problem]:
    """Hint at stock that no part can be cut from."""
    for path, item in _stock(job):
        if isinstance(item, Sheet):
            used = any(sheet_serves(job, item, panel) for panel in job.panels)
            measure = f"{item.material} {item.thickness:g} mm"
        else:
            used = any(length_serves(job, item, strip) for strip in job.strips)
            measure = f"{item.material} {item.section[0]:g} x {item.section[1]:g} mm"
        if not used:
            grade = f' of grade "{item.grade}" or below' if item.grade else ""
            reason = f"no part can come from it: none asks for {measure}{grade}"
            yield _hint("unused", path, item, reason, "Check its material, measures and grade, or leave it out.")


def uneven_sheets(job: Job) -> Iterator[Problem]:
    """Hint at sheets that measure thinner than others from which pieces of the same joined panels may come."""
    for index, sheet in enumerate(job.sheets):
        for panel in (panel for panel in job.panels if panel.joint and sheet_serves(job, sheet, panel)):
            thickest = max(
                (other for other in job.sheets if sheet_serves(job, other, panel)), key=lambda s: s.true_thickness
            )
            step = thickest.true_thickness - sheet.true_thickness
            if step > MOST_STEP:
                reason = (
                    f'it is {step:.2g} mm thinner than "{thickest.name}", and both may meet in joints of '
                    f'"{panel.name}": the faces would not come flush there'
                )
                remedy = "Check measured; give them different materials to keep them apart, or fair the step."
                yield _hint("uneven", ("sheets", index), sheet, reason, remedy)
                break


def _stock(job: Job) -> Sequence[Stock]:
    sheets: list[Stock] = [(("sheets", k), sheet) for k, sheet in enumerate(job.sheets)]
    return [*sheets, *((("lengths", k), length) for k, length in enumerate(job.lengths))]


def _same_but_for_price(one: Sheet | Length, other: Sheet | Length) -> bool:
    changed = {"name": other.name, "price": other.price, "available": other.available}
    return one.model_copy(update=changed) == other


def _hint(code: str, path: tuple[str, int], item: Sheet | Length, reason: str, remedy: str) -> Problem:
    where = f'{path[0][:-1]} "{item.name}"'
    return Problem(code=f"hint-{code}", where=where, path=path, reason=reason, remedy=remedy)
