"""Words and stems."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from analog.index.tokens import STOP_WORDS, stem, tokens

# Function terms of NIST Technical Note 1447 (Hirtz et al., 2002).
FUNCTIONS = """
separate divide extract remove distribute import export transfer transport transmit guide translate rotate couple join
link mix actuate regulate increase decrease change increment decrement shape condition stop prevent inhibit convert
store contain collect supply sense detect measure indicate track display process stabilize secure position
""".split()  # noqa: SIM905 - easier to read than forty quoted words


def test_no_function_is_a_stop_word():
    """A query is often little more than its verb."""
    assert not STOP_WORDS & set(FUNCTIONS)
    assert all(len(tokens(verb)) == 1 for verb in FUNCTIONS)


def test_no_two_functions_share_a_stem():
    """A stem must not make one function of two ("import" and "export" stay apart)."""
    assert len({stem(verb) for verb in FUNCTIONS}) == len(FUNCTIONS)


@pytest.mark.parametrize(
    "forms",
    [
        ("panel", "panels"),
        ("separate", "separates", "separated", "separating"),
        ("stop", "stops", "stopped", "stopping"),
        ("body", "bodies"),
        ("glass", "glasses"),
        ("dry", "dries", "dried", "drying"),
        ("freeze", "freezes", "freezing"),
        ("brush", "brushes"),
        ("move", "moves", "moved", "moving"),
    ],
)
def test_forms_of_a_word_share_a_stem(forms):
    """Plurals and the endings of verbs; the pairs are common English, no source."""
    assert len({stem(form) for form in forms}) == 1


@pytest.mark.parametrize("word", ["gas", "mass", "lotus", "axis", "string", "wing", "seed", "speed", "ice", "spring"])
def test_words_that_only_look_inflected_are_kept(word):
    """Common English, no source."""
    assert stem(word) == word


def test_words_of_a_sentence():
    """Case, hyphens, accents, apostrophes; numbers stay."""
    assert tokens("How can the Solar-Panel's dust (5 µm) be Élevé?") == ["solar", "panel", "dust", "5", "μm", "élevé"]


@given(st.text(max_size=60))
def test_any_text_can_be_read(text):
    """No text fails, and case does not matter."""
    assert tokens(text) == tokens(text.casefold())
