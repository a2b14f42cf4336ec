"""What goes to the bench: the page, the drawings, and the lists as CSV."""

from .bevels import bevel_schedule
from .blank_make_up import blank_make_up, blank_scarfs
from .consumables import consumables
from .cut_list import cut_list
from .cut_order import cut_order_table
from .gluing import glue_up_sheet, register_marks
from .joint_schedule import joint_schedule
from .marking import marking_out, marking_table, panel_marking_table, panel_offsets, setting_out
from .page import page
from .shopping import shopping_list
from .stacks import stacked_in_words, stacks
from .timber_tally import timber_tally
from .ways import chosen_way
from .weights import weights
from .workload import workload
from .writing import report_files

__all__ = [
    "bevel_schedule",
    "blank_make_up",
    "blank_scarfs",
    "chosen_way",
    "consumables",
    "cut_list",
    "cut_order_table",
    "glue_up_sheet",
    "joint_schedule",
    "marking_out",
    "marking_table",
    "page",
    "panel_marking_table",
    "panel_offsets",
    "register_marks",
    "report_files",
    "setting_out",
    "shopping_list",
    "stacked_in_words",
    "stacks",
    "timber_tally",
    "weights",
    "workload",
]
