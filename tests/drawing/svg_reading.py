"""Reads back what a drawing shows, from its SVG alone."""

import re
from xml.etree import ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"


def root_of(svg):
    """Return the root element; fails if the text is not XML."""
    return ElementTree.fromstring(svg)


def rings_of(path):
    """Return the closed or open runs of a path, y up again."""
    runs = [run for run in re.split("[MZ]", path.get("d")) if run.strip()]
    return [[tuple(float(n) for n in point.split()) for point in run.split("L")] for run in runs]


def points_of(path):
    """Return the points of all runs of a path as the thing has them: y up."""
    return [[(x, -y) for x, y in run] for run in rings_of(path)]


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
