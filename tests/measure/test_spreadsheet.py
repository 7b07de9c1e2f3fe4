"""Text that a spreadsheet program must leave alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.spreadsheet import safe_text

GUARDED = """=A1|formula, check value V20 (OWASP ASVS 5, 1.2.10)
=HYPERLINK("x")|formula
+1 555 0100|formula start
-25|formula start
@SUM(1)|formula start
 =A1|a leading blank does not make it harmless
＝A1|a wide equals sign, read as one under a Japanese desktop
＋1|wide plus
3/8|date, check values section 10
1-2|date
12:30|time
1:48|time: a slope's spelling
3 PM|time
12a|time
1e5|power of ten
-1.5E-3|power of ten
MAR1|date: gene names are known for it
MAR 1|date
Sept 2|date
5 May 2026|date
May 5, 2026|date
5. Mai 2026|date, German
12 mars|date, French
2026-06-12|date
2026-06-12T09:31:00Z|date and time
12.6.2026|date
Friday, June 5, 2026|date
4711|number: an order number of the customer's
007|number that would lose its noughts
12 345|number in French
1'250|number in Switzerland
1,250|number
.5|number
5.|number
(5)|negative number of a bookkeeper
45 %|percentage
$5|money
5 €|money
5 kr|money
1 1/2|mixed number
TRUE|truth value
falsch|truth value, German
#N/A|error value"""

PLAIN = """10 mm
42 3/8 in
3/8 in
0 in
slope 1:48
slope 2 %
41 11/16 in, start 1 in, case 3 in, along
3/8 in over centres
clear toughened
lower right, shows after fitting
the deck, looking out
12 Quay Lane
1 May Street
A1
P1
R5
E5
Q1 works
5 m
2' 11"
35 1/4"
M
May Weber
ring twice, 2nd floor
½ hour's notice
off-plan: post set clear of a joist (M)
'quoted already"""


@pytest.mark.parametrize("line", GUARDED.split("\n"))
def test_text_that_would_turn_gets_an_apostrophe(line):
    text, _, _why = line.partition("|")
    assert safe_text(text) == "'" + text


@pytest.mark.parametrize("start", ["\t=1", "\r=1", "\n=1", "\t5"])
def test_a_tab_or_a_return_first_gets_an_apostrophe(start):
    assert safe_text(start) == "'" + start


@pytest.mark.parametrize("text", PLAIN.split("\n"))
def test_honest_words_are_left_as_typed(text):
    assert safe_text(text) == text


def test_control_characters_are_shown_as_such():
    assert safe_text("a\0b\x1bc") == "a\ufffdb\ufffdc"


def test_line_breaks_inside_stay():
    assert safe_text("12 Quay Lane\nBack gate") == "12 Quay Lane\nBack gate"


@given(st.text())
def test_no_text_begins_with_what_a_formula_begins_with(text):
    assert safe_text(text)[:1] not in set("=+-@\t\r\n\0＝＋－＠")


@given(st.from_regex(r"[-+]?[0-9]{1,6}([.,][0-9]{1,4})?(e[-+]?[0-9]{1,2})?", fullmatch=True))
def test_no_number_stands_bare(text):
    assert safe_text(text) == "'" + text
