"""Inputs of a few kilobytes that once took unbounded time or memory, each at any size."""

from tests.bounds.circuits import CIRCUITS
from tests.bounds.lists import LISTS
from tests.bounds.work import WORK

CASES = (*LISTS, *WORK, *CIRCUITS)
