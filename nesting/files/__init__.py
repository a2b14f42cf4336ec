"""Readers and writers: jobs, offsets, plans, output folders."""

from .folder import RUN_RECORD, require_usable, write_folder
from .job_file import located, read_job
from .offsets_csv import read_offsets
from .plan_file import plan_json, read_plan

__all__ = [
    "RUN_RECORD",
    "located",
    "plan_json",
    "read_job",
    "read_offsets",
    "read_plan",
    "require_usable",
    "write_folder",
]
