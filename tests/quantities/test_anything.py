"""Whatever is typed is read or properly refused, and never anything else."""

import string

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from evenhung.errors import InvalidQuantity
from evenhung.quantities import Force, Length, LinearDensity, Mass

KINDS = (Length, Mass, Force, LinearDensity)
LONGEST_TEXT = 40


def check_any_text(kind, text):
    """Parse a text: either it is refused and told why, or it is read with its text kept."""
    try:
        quantity = kind.parse(text)
    except InvalidQuantity as caught:
        refusal = caught
    else:
        assert quantity.text == text
        assert 0 <= quantity.exact < 10**16
        return
    assert refusal.allowed.isprintable()
    assert len(refusal.value) <= LONGEST_TEXT + 1
    with pytest.raises(InvalidQuantity):
        kind.parse(text)


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(KINDS), st.text())
def test_any_text_is_read_or_refused(kind, text):
    check_any_text(kind, text)


FRAGMENTS = [
    *("0", "1", "9", "12", "1,234", "1.5", ",5", ".5", "1e3", "1234567890", "½", "⅟", "¹¹⁄₁₆"),
    *("mm", "m", "in", "ft", "kg", "g", "lb", "oz", "st", "cwt", "N", "lbf", "short", "per", "x"),
    *("'", '"', "''", "″", "/", "⁄", "-", "–", "−", "+", ",", ".", " ", "\u00a0", "\n", "100", "٣"),
]


@settings(deadline=None, max_examples=1000)
@given(st.sampled_from(KINDS), st.lists(st.sampled_from(FRAGMENTS), max_size=9))
@example(LinearDensity, ["1", "lb", "/", "100", "/"])
@example(Length, ["1", "/", "1", "/", "1", "/"])
def test_any_heap_of_fragments_is_read_or_refused(kind, fragments):
    check_any_text(kind, "".join(fragments))


@settings(deadline=None, max_examples=1000)
@given(
    st.sampled_from([(kind, text) for kind in KINDS for text in kind.examples]),
    st.integers(0, LONGEST_TEXT),
    st.integers(0, 2),
    st.sampled_from(["", *FRAGMENTS, *string.punctuation]),
)
def test_any_slip_of_the_finger_is_read_or_refused(example_of_kind, at, dropped, inserted):
    kind, text = example_of_kind
    check_any_text(kind, text[:at] + inserted + text[at + dropped :])
