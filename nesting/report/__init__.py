"""What goes to the bench: the page, the drawings, and the lists as CSV."""

from .blank_make_up import blank_make_up, blank_scarfs
from .cut_list import cut_list
from .joint_schedule import joint_schedule
from .marking import marking_out, marking_table, panel_marking_table, panel_offsets, setting_out
from .page import page
from .shopping import shopping_list
from .ways import chosen_way
from .writing import report_files

__all__ = [
    "blank_make_up",
    "blank_scarfs",
    "chosen_way",
    "cut_list",
    "joint_schedule",
    "marking_out",
    "marking_table",
    "page",
    "panel_marking_table",
    "panel_offsets",
    "report_files",
    "setting_out",
    "shopping_list",
]
