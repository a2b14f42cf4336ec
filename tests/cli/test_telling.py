"""What the command tells of a plan with blanks, with straps, and of the ways of joining."""

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "auditing"))

from good_blank_plan import blank_plan
from good_butt_plan import butt_plan

from nesting_cli.telling import tell_as_json, tell_as_table


def told(tell, plan, capsys: pytest.CaptureFixture[str]) -> str:
    """Return what is printed of a plan."""
    tell(plan, Path("out"), ["index.html"], stopped=False)
    return capsys.readouterr().out


def test_the_ways_are_told_with_their_objective_or_why_there_is_none(capsys):
    """The chosen one is marked."""
    lines = told(tell_as_table, blank_plan(), capsys).splitlines()
    assert f"{'joined':<26}178.20 EUR (chosen): one scarf the less" in lines
    assert f"{'divided':<26}no plan: not tried: the workshop joins" in lines


def test_blanks_and_straps_are_told_where_there_are_any(capsys):
    """Scarfs of blanks are counted apart from the joints of parts; 2 x 90 x 260 mm2 of straps are 0.047 m2."""
    blanks = told(tell_as_table, blank_plan(), capsys)
    straps = told(tell_as_table, butt_plan(), capsys)
    assert f"{'scarfs of blanks':<26}1" in blanks.splitlines()
    assert f"{'straps behind butts':<26}0.047 m²" in straps.splitlines()
    assert "straps" not in blanks.replace("scarfs", "")
    assert "blank" not in straps.replace("a butt makes no blank", "")


def test_programs_get_the_ways_with_money_as_text(capsys):
    """A way without a plan has null for its objective."""
    outcome = json.loads(told(tell_as_json, blank_plan(), capsys))
    assert (outcome["blanks"], outcome["scarfs_of_blanks"]) == (1, 1)
    assert outcome["ways"] == [
        {"way": "joined", "objective": "178.20", "told": "one scarf the less", "chosen": True},
        {"way": "divided", "objective": None, "told": "not tried: the workshop joins", "chosen": False},
    ]
