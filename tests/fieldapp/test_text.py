"""Running text on the screen: where no line may end."""

import pytest

from fieldapp.parts.text import NO_BREAK, rich, text, unbroken
from fieldapp.theme import Look


@pytest.mark.parametrize(
    ("sentence", "held"),
    [
        ("100 mm longer than planned (1028 mm).", "100~mm longer than planned (1028~mm)."),
        ("Was it 40 7/16 in, or 41?", "Was it 40~7/16~in, or 41?"),
        ("A panel of 26 kg, 2 ft 11 1/4 in wide.", "A panel of 26~kg, 2~ft 11~1/4~in wide."),
        ("A slope of 2 %, at most.", "A slope of 2~%, at most."),
        ("Tap 3 marks; 12 minutes; A1 span.", "Tap 3 marks; 12 minutes; A1 span."),
    ],
)
def test_no_line_ends_between_a_figure_and_its_unit(sentence, held):
    assert unbroken(sentence) == held.replace("~", NO_BREAK)
    assert text(Look(), sentence).value == unbroken(sentence)
    assert rich(Look(), [sentence]).spans[0].text == unbroken(sentence)


def test_what_can_be_copied_keeps_its_plain_spaces():
    assert text(Look(), "1028 mm", selectable=True).value == "1028 mm"
