"""What goes to the bench: the page, the drawings, and the lists as CSV."""

from .cut_list import cut_list
from .joint_schedule import joint_schedule
from .page import page
from .shopping import shopping_list
from .writing import report_files

__all__ = ["cut_list", "joint_schedule", "page", "report_files", "shopping_list"]
