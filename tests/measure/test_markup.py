"""People's text in markup and style sheets."""

import html
import re

from hypothesis import given
from hypothesis import strategies as st

from measure.markup import css_text, markup_safe


@given(st.text())
def test_markup_reads_back_as_what_was_typed_but_for_characters_it_has_no_place_for(text):
    safe = markup_safe(text)
    assert not set("<>\"'") & set(safe)
    back = html.unescape(safe)
    assert len(back) == len(text)
    assert all(a == b or a == "\ufffd" for a, b in zip(back, text, strict=True))


@given(st.text())
def test_a_style_sheets_string_ends_where_it_should(text):
    quoted = css_text(text)
    assert re.fullmatch(r'"([A-Za-z0-9]|\\[0-9a-f]{6})*"', quoted)
    back = re.sub(r"\\([0-9a-f]{6})", lambda found: chr(int(found[1], 16)), quoted[1:-1])
    assert all(a == b or a == "\ufffd" for a, b in zip(back, text, strict=True))
