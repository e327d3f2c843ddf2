"""The record of a set as one page in one file: no network, no other file, a strict security policy."""

from netcheck.reports.record.page import record_page

__all__ = ["record_page"]
