"""Readers and writers: jobs, offsets, plans, output folders."""

from .folder import RUN_RECORD, require_usable, write_folder
from .job_file import located, read_job
from .offsets_csv import read_offsets
from .plan_file import plan_json, read_plan
from .reading_what_can_be import Readable, read_what_can_be
from .schema import job_schema, plan_schema

__all__ = [
    "RUN_RECORD",
    "Readable",
    "job_schema",
    "located",
    "plan_json",
    "plan_schema",
    "read_job",
    "read_offsets",
    "read_plan",
    "read_what_can_be",
    "require_usable",
    "write_folder",
]
