"""The record of a set as one page in one file: no network, no other file, a strict security policy.

Its policy lets nothing run but the style and the script whose hashes it names, so that a name in a list can't, were it
ever not escaped. Sentence, line and mark are tied by the act of a work log and the name underlined; without the script
the page says the same. In the dark pictures stay black on white; printed is what is open.
"""

from netcheck.reports.record.page import record_page

__all__ = ["record_page"]
