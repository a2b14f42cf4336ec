"""Reads back what a drawing shows, from its SVG alone."""

import re
from xml.etree import ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"


def root_of(svg):
    """Return the root element; fails if the text is not XML."""
    return ElementTree.fromstring(svg)


def rings_of(path):
    """Return the closed or open runs of a path, y up again."""
    figures = [[float(figure) for figure in run.split()] for run in re.split("[MZ]", path.get("d")) if run.strip()]
    return [list(zip(run[::2], run[1::2], strict=True)) for run in figures]


def points_of(path):
    """Return the points of all runs of a path as the thing has them: y up."""
    return [[(x, -y) for x, y in run] for run in rings_of(path)]


def pens_of(root):
    """Return how each kind of line is drawn: width and dashes, in millimetres of the thing."""
    rules = re.findall(
        r"path\.([\w-]+)\{stroke:#\w+;stroke-width:([\d.]+)(?:;stroke-dasharray:([\d. ]+))?\}",
        root.find(f"{NAMESPACE}style").text,
    )
    return {kind: (float(width), dashes) for kind, width, dashes in rules}


def named(root, name):
    """Return the outline that bears a name."""
    return next(path for path in root.iter(f"{NAMESPACE}path") if path.get("data-name") == name)


def group_of(root, kind, start):
    """Return the group of a kind whose title starts with some words."""
    for group in root.iter(f"{NAMESPACE}g"):
        title = group.find(f"{NAMESPACE}title")
        if group.get("class") == kind and title is not None and title.text.startswith(start):
            return group
    raise AssertionError(f"no {kind} is titled {start}")


def lines_of(group, kind):
    """Return the runs of all lines of a kind within a group."""
    return [run for path in group.iter(f"{NAMESPACE}path") if path.get("class") == kind for run in points_of(path)]


def words_of(root):
    """Return all texts in the drawing."""
    return [text.text for text in root.iter(f"{NAMESPACE}text")]
