"""Articles as the words are spoken."""

import pytest

from netcheck.core.article import with_article

SPOKEN = {
    "an": ("electrolytic", "80", "807", "82", "11", "EL34", "ECC83", "OA2", "L1", "OZ4", "insulated strip", "X2"),
    "a": ("tube", "5U4GT", "6V6", "12AU7", "117Z6GT", "1B3GT", "UY85", "GZ34", "capacitor", "2X2", "Solen", "108C1"),
}


@pytest.mark.parametrize(("article", "word"), [(a, word) for a, words in SPOKEN.items() for word in words])
def test_the_article_is_that_of_the_spoken_word(article: str, word: str) -> None:
    assert with_article(word) == f"{article} {word}"
