"""Tables of tube types: what a line says, and that a table is read fast."""

from time import perf_counter

from netcheck.core.kind import Standing
from netcheck.core.type_table import TypeRow, read_types, table_of

TABLE = """
# a comment
source maker = data sheet {}
source book = a book

[octal] 1 2
5T - F1
  5Y3-G 5Y3GT
  5U4G 5U4 | maker EML5U4G; filament only
  5R4GY | maker
  5W4 | as the 5Y3
[loctal] 1
5AB H1
  7Y4 | book page 3; maker; told twice
  5U4G
"""


def row(printed: str, *sections: str) -> TypeRow:
    found = read_types(TABLE).find(printed, *sections)
    assert found is not None
    return found


def test_a_row_has_its_cells_and_the_labels_of_its_section() -> None:
    assert row("5Y3GT") == TypeRow("5Y3GT", "octal", ("1", "2"), ("5T", "-", "F1"), Standing.MEMORY, "")


def test_who_says_so() -> None:
    assert (row("5U4").standing, row("5U4").source) == (Standing.SOURCE, "data sheet EML5U4G; filament only")
    assert row("5R4GY").source == "data sheet 5R4GY"
    assert (row("5W4").standing, row("5W4").source) == (Standing.MEMORY, "as the 5Y3")
    assert row("7Y4").source == "a book, page 3; data sheet 7Y4; told twice"


def test_a_type_by_its_spellings() -> None:
    assert row("5Y3G").type == row("5Y3 G").type == row("6087/5Y3-G").type == "5Y3-G"
    assert read_types(TABLE).find("5Y3") is None


def test_a_section_is_asked_by_its_name() -> None:
    assert row("5U4G").section == "octal"
    assert row("5U4G", "loctal").section == "loctal"
    assert read_types(TABLE).find("5Y3G", "loctal") is None
    assert read_types(TABLE).types("loctal") == ("7Y4", "5U4G")
    assert read_types(TABLE).types()[0] == "5Y3-G"


def test_the_table_of_basings_is_read_in_less_than_ten_milliseconds() -> None:
    """Start-up matters: the best of five, which leaves a busy machine out of it."""
    spent = []
    for _ in range(5):
        start = perf_counter()
        table_of("netcheck.parts", "basings.txt").find("6V6GT")
        spent.append(perf_counter() - start)
    assert min(spent) < 0.010
