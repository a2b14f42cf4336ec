"""The plan as one page that needs nothing beside it: to read on a phone, print, and take to the bench."""

from base64 import b64encode
from functools import cache
from hashlib import sha256
from importlib.resources import files

from jinja2 import Environment, StrictUndefined, Template
from markupsafe import Markup

from nesting.drawing import plan_mark
from nesting.model import Plan

from .screens import all_screens
from .table_markup import table_markup


def page(plan: Plan) -> str:
    """Return the whole plan as one HTML page that refers to nothing outside it, and can be read without its script."""
    mark, script = plan_mark(plan), _own("page.js")
    return _template().render(
        title=plan.job.title,
        mark=mark,
        screens=all_screens(plan, mark),
        style=Markup(_own("page.css")),
        script=Markup(script),
        script_sha256=b64encode(sha256(script.encode()).digest()).decode(),
    )


@cache
def _template() -> Template:
    environment = Environment(
        undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True
    )
    environment.globals.update(table_markup=table_markup)
    return environment.from_string(_own("page.html.j2"))


def _own(name: str) -> str:
    """Return the text of a file that lies beside this one."""
    return files("nesting.report").joinpath(name).read_text(encoding="utf-8")
