import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from netcheck.core.visible import visible


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("C30A+ on B\u2212", "C30A+ on B\u2212"),
        ("Ω µ ü 漢 😀", "Ω µ ü 漢 😀"),
        ("two\u00a0words", "two\u00a0words"),
        ("red\x1b[31m", "red<U+001B>[31m"),
        ("a\tb\r\nc", "a<U+0009>b<U+000D><U+000A>c"),
        ("\u202egnd", "<U+202E>gnd"),
        ("\ufeffC1", "<U+FEFF>C1"),
        ("\u2028\u2029", "<U+2028><U+2029>"),
        ("\ud800", "<U+D800>"),
        ("\ue000", "<U+E000>"),
        ("\ufffe\U0010ffff\ufdd0", "<U+FFFE><U+10FFFF><U+FDD0>"),
        ("\U000e0041", "<U+E0041>"),
        ("", ""),
    ],
)
def test_what_acts_on_the_screen_is_shown_as_its_number(text: str, shown: str) -> None:
    assert visible(text) == shown


@given(st.text())
def test_the_result_is_one_line_that_any_encoder_takes_and_a_second_pass_leaves_alone(text: str) -> None:
    shown = visible(text)
    assert visible(shown) == shown
    shown.encode("utf-8")
    assert all(unicodedata.category(sign) not in {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"} for sign in shown)
