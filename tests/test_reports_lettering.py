"""How wide words are set, and how they are shortened and broken."""

import string

import pytest

from netcheck.core.report import Report
from netcheck.reports import Style, shown
from netcheck.reports.drawing.lettering import advance, brief, label, leading, natural, spoken, wrapped
from netcheck.reports.renderer import counted

# Thousandths of the size, as the metrics files of Helvetica and Helvetica-Bold give them (Adobe's Core 14, from memory;
# Arial was drawn to the same widths), sign by sign under their width.
PLAIN = {
    191: "'", 222: "ijl", 260: "|", 278: " !,./:;I[\\]ft", 333: "()-`r", 334: "{}", 355: '"', 389: "*", 469: "^",
    500: "Jcksvxyz", 556: "#$0123456789?L_abdeghnopqu", 584: "+<=>~", 611: "FTZ", 667: "&ABEKPSVXY", 722: "CDHNRUw",
    778: "GOQ", 833: "Mm", 889: "%", 944: "W", 1015: "@",
}  # fmt: skip
BOLD = {
    238: "'", 278: " ,./I\\ijl", 280: "|", 333: "!()-:;[]`ft", 389: "*r{}", 474: '"', 500: "z",
    556: "#$0123456789J_aceksvxy", 584: "+<=>^~", 611: "?FLTZbdghnopqu", 667: "EPSVXY", 722: "&ABCDHKNRU", 778: "GOQw",
    833: "M", 889: "%m", 944: "W", 975: "@",
}  # fmt: skip


@pytest.mark.parametrize(("table", "bold"), [(PLAIN, False), (BOLD, True)], ids=["plain", "bold"])
def test_every_sign_of_a_keyboard_has_its_published_width(table: dict[int, str], *, bold: bool) -> None:
    assert {sign for signs in table.values() for sign in signs} == {chr(code) for code in range(0x20, 0x7F)}
    for width, signs in table.items():
        assert {natural(sign, 1000, bold=bold) for sign in signs} == {width}, signs


def test_what_has_no_published_width_is_guessed_to_be_wide() -> None:
    """Letters with accents and Greek are no wider than an em's three quarters; symbols and Chinese fill it."""
    assert [natural(sign, 1000) for sign in "\u00e9\u03a9\u2212"] == [750, 750, 750]
    assert natural("\u0301", 1000) == 0  # set over the letter before it
    assert [natural(sign, 1000) for sign in "\u2026\u6f22"] == [1020, 1020]
    assert advance("mfd", 9) == pytest.approx(1.06 * natural("mfd", 9))
    assert leading(9) == 11.9


@pytest.mark.parametrize(
    ("text", "names", "said"),
    [
        ("the leads of `C54` are exchanged", (), "The leads of C54 are exchanged"),
        ("`avc` is called AVC", (), "avc is called AVC"),
        ("b+ is joined to grid", ("b+",), "b+ is joined to grid"),
        ("b+is joined", ("b+",), "B+is joined"),
        ("", (), ""),
    ],
)
def test_a_message_is_a_sentence_but_for_a_word_of_the_file(text: str, names: tuple[str, ...], said: str) -> None:
    assert spoken(text, names) == said


def test_a_long_name_keeps_both_its_ends() -> None:
    assert brief(string.ascii_lowercase) == string.ascii_lowercase
    assert brief(string.ascii_lowercase + "0") == "abcdefghijkl\u2026opqrstuvwxyz0"
    assert brief("abcdefgh", 4) == "a\u2026gh"
    assert brief("a\x1bb") == "a<U+001B>b"
    assert [label(text) for text in ("-", "+", "red-a")] == ["\u2212", "+", "red-a"]


def test_lines_hold_as_many_words_as_go_in_and_the_last_says_that_there_is_more() -> None:
    wide = advance("aaa bbb", 10)
    assert wrapped("aaa bbb ddd", wide, 10) == ("aaa bbb", "ddd")
    assert wrapped("aaa bbb ddd", wide - 0.1, 10) == ("aaa", "bbb", "ddd")
    assert wrapped("aaa bbb", wide, 10, bold=True) == ("aaa", "bbb")
    assert wrapped("aaaaaaa", advance("aaa", 10), 10) == ("aaa", "aaa", "a")
    assert wrapped("a b c d", advance("a", 10), 10, most=4) == ("a", "b", "c", "d")
    assert wrapped("aa bb cc dd", advance("aa", 10), 10, most=3) == ("aa", "bb", "c\u2026")
    assert len(wrapped("a b c d e f g", advance("a", 10), 10)) == 6
    assert wrapped("  ", 100, 10) == ()


def test_each_sign_of_the_trade_has_a_plain_spelling_and_any_other_its_number() -> None:
    plain = Style(unicode=False)
    signs = "\u2212 \u00b5 \u03bc \u2126 \u03a9 \u00bd \u00bc \u00be \u00d7 \u00b1 \u2026 \u2013 \u2014"
    assert shown(signs, plain) == "- u u ohm ohm 1/2 1/4 3/4 x +/- ... - -"
    assert shown("\u00e9\u6f22", plain) == "<U+00E9><U+6F22>"
    assert shown("\u00e9\x1b", Style()) == "\u00e9<U+001B>"


def test_of_several_sets_it_is_counted_how_many_could_not_be_looked_at() -> None:
    sound, broken = Report("all", "", ("a",), ()), Report("all", "", ("b",), (), built=False)
    assert counted(Report("all", "", ("a", "b"), (), built=False, parts=(sound, broken))) == (
        "no findings; 1 of 2 chassis could not be looked at"
    )
