"""The printed order: what stands on it, that nothing in it acts or loads, and how it comes out on A4 and Letter paper."""

import re
import shutil
import subprocess
from html.parser import HTMLParser

import pytest

from measure.job import OrderHead
from measure.length import inches
from measure.order import make_order
from measure.order_html import corner_angles, grip_words, order_html
from measure.pane_text import pane_text
from measure.panel import cut_panel
from measure.plan import Run
from measure.report import evaluate
from measure.system import Limits


def words_of(text):
    return text.split()


ELEMENTS = words_of(
    "html head meta title style body h1 h2 h3 p div b ul li span section article header table thead tbody tr th td "
    "svg rect text line polygon g"
)
ATTRIBUTES = words_of(
    "lang charset http-equiv content name class scope colspan xmlns role viewbox width height font-family font-size fill x y x1 y1 x2 y2 "
    "text-anchor font-weight stroke stroke-width stroke-dasharray fill-opacity points transform"
)
CHROMIUM_ARGS = words_of(
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync"
)


class Page(HTMLParser):
    """Elements, attributes and text of a page, as a parser sees them."""

    def __init__(self, data: bytes):
        super().__init__()
        self.elements, self.attributes, self.words = set(), set(), []
        self.feed(data.decode("utf-8"))

    def handle_starttag(self, tag, attrs):
        self.elements.add(tag)
        self.attributes |= {name for name, _ in attrs}

    def handle_data(self, data):
        self.words.append(data)

    @property
    def text(self):
        return " ".join(" ".join(self.words).split())


def order_of(deck, **said):
    return make_order(evaluate(deck.job(**said)))


def mixed(deck):
    """Racked both ways, level-top, a rectangle, a frosted one and a stair, one bay left out."""
    made = deck(
        head=OrderHead("Invented & Sons", "4711", "2026-06-12", "12 Quay Lane", "Ada", "555 0100", "forklift at the gate")
    )
    made.bay("A1", "41 11/16 in", "3/8 in", "right", read_back_by="Kai").gate().bay(
        "A2", "41 in", "1/2 in", "left", by="Lea"
    ).gate()
    made.bay("A3", "40 1/2 in", "7/16 in", "right", shape="level-top").gate().bay("A4", "39 in", finish_face="frosted, outside")
    made.gate().bay("A5", "41 in", "22 in", "right").gate().bay("A6", "41 in", "1 in")
    return made.answer("slope", "stair to the garden", "Kai", bay="A5")


@pytest.fixture
def page(deck):
    return order_html(order_of(mixed(deck), limits=Limits(slope=1 / 12)))


@pytest.mark.parametrize(
    "said",
    [
        "Glass order: Boathouse deck",
        "Not issued: no order number yet",
        "Customer Invented & Sons",
        "Wanted by 2026-06-12",
        "Unloading forklift at the gate",
        "5 panels",
        "No cutting before the shop's drawing is signed. Toughened glass cannot be cut, drilled or ground afterwards.",
        "Every panel is seen from the deck, looking out. Left, right and high end are meant from there. Do not mirror.",
        "They are rounded to 1/16 in already: do not round again, add or take off. Size tolerance 2.5 mm either way.",
        "never along the slope",
        "unequal diagonals on purpose",
        "Taped Mona (4 panels), Lea (1 panel)",
        "Read back Kai (1 panel); 4 not read back",
        "Confirmed the system's figures Mona, 2026-04-20, invented sheet 3",
        "Issued the order not issued",
        "Not ordered yet, do not make them: A6 .",
        "A6 high-end hold The rise 1 in does not say which end is high",
        "A5 slope stair to the garden Kai",
        "Until the glass is in, the edge of the deck is open",
        "Spanbook does not say that a guard is compliant.",
        "Shop's drawing checked against this order: name",
        "Panel A1 run A · pane A · racked, right end high · seen from the deck, looking out",
        "Width, across 43 in 1092.20 mm",
        "Rack 3/8 in 9.52 mm",
        "Rising diagonal 1463.90 mm",
        "Lower corners left 89.50°, right 90.50°",
        "Area, mass 1.0542 m², 26.4 kg",
        "frosted, outside: handed, not to be turned round",
        "Span 1058.86 mm (read 41 11/16 in), allowance 33.34 mm, rise 3/8 in over centres. Taped by Mona, read back by Kai.",
        "Grip: 6.4 mm to spare",
        "It stands: slope: stair to the garden (Kai)",
    ],
)
def test_the_page_says(page, said):
    assert said in Page(page).text


def test_an_issued_order_says_number_revision_date_and_by_whom(deck):
    text = Page(order_html(order_of(deck().bay("A1", "41 in")).issued("SB-7", 2, "2026-05-03", "Mona"))).text
    assert "Order SB-7, revision 2, 2026-05-03" in text
    assert "Issued the order Mona, 2026-05-03" in text


def test_an_unconfirmed_system_and_a_missing_read_back_are_said(deck):
    text = Page(order_html(order_of(deck(system={"confirmed": None}).bay("A1", "41 in")))).text
    assert "Confirmed the system's figures nobody" in text
    assert "Read back nobody" in text
    assert "Nobody confirmed the system's figures from a dated sheet" in text


def test_both_lower_corners_are_named_the_sharper_one_at_the_low_foot():
    # Check value V16: 5 over 60 in is 4.7636°.
    pane = cut_panel("racked", inches(60), inches(36), -inches(5), inches(0, 25))
    assert corner_angles(pane_text(pane, "in"), pane) == "left 94.76°, right 85.24°"


@pytest.mark.parametrize(
    ("allowance", "words"), [("1 1/4 in", "holds too little"), ("1 3/8 in", "no longer goes in between the groove floors")]
)
def test_the_grip_is_told_by_the_side_that_decides(deck, allowance, words):
    (line,) = order_of(deck(system={"allowance": deck().length(allowance)}).bay("A1", "41 in")).lines
    # Half of 1/16 in off the even 1 5/16: 1/4 - 1/16 = 3/16 in = 4.76 mm on the side that decides.
    assert grip_words(line).startswith("4.8 mm to spare before")
    assert words in grip_words(line)


HOSTILE = "\"'><script>alert(1)</script><img src=x onerror=alert(2)><svg onload=alert(3)></style></title>&amp;<!--\0\x1b]]>"


@pytest.fixture
def hostile(deck):
    names = ("kind", "edge_top", "edge_uprights", "edge_bottom", "corners", "holes", "stamp", "standard", "finish_face")
    made = deck(
        glass=dict.fromkeys(names, HOSTILE), runs={"A": Run("A", "posts", HOSTILE)}, head=OrderHead(*[HOSTILE] * 7), name=HOSTILE
    )
    made.bay("A1", "41 in", "12 in", "right", by=HOSTILE, read_back_by=HOSTILE + "2").gate().bay("A2", "41 in", "1 in")
    order = order_of(made.answer("slope", HOSTILE, HOSTILE, bay="A1"), limits=Limits(slope=1 / 12))
    assert (len(order.lines), len(order.left_out)) == (1, 1)
    return order_html(order.issued(HOSTILE, 1, HOSTILE, HOSTILE))


def test_only_plain_elements_and_attributes_are_on_the_page(page, hostile):
    for data in (page, hostile):
        seen = Page(data)
        assert seen.elements <= set(ELEMENTS)
        assert seen.attributes <= set(ATTRIBUTES)
        assert b"url(" not in data and b"@import" not in data


def test_markup_that_people_typed_is_shown_as_typed(hostile):
    shown = HOSTILE.replace("\0", "\ufffd").replace("\x1b", "\ufffd")
    assert " ".join(Page(hostile).words).count(shown) >= 20


def test_every_colour_is_a_grey(page):
    for colour in re.findall(rb"#([0-9a-fA-F]{3,6})\b", page):
        digits = colour.decode() if len(colour) == 6 else "".join(2 * c for c in colour.decode())
        assert digits[:2] == digits[2:4] == digits[4:], colour


@pytest.fixture(scope="module")
def browser(playwright):
    """Chromium of this machine; a machine without one fails here."""
    program = shutil.which("chromium")
    if program is None:
        pytest.fail("chromium is not on this machine: install Debian's chromium")
    opened = playwright.chromium.launch(executable_path=program, args=CHROMIUM_ARGS)
    yield opened
    opened.close()


@pytest.fixture
def show(browser, tmp_path):
    """Opens a page from a file; `asked` holds every request, `spoken` every dialog and console line."""
    opened = browser.new_page()
    opened.asked, opened.spoken = [], []
    opened.on("request", lambda request: opened.asked.append(request.url))
    opened.on("dialog", lambda dialog: (opened.spoken.append(dialog.message), dialog.dismiss()))
    opened.on("console", lambda line: opened.spoken.append(line.text))
    opened.on("pageerror", lambda wrong: opened.spoken.append(str(wrong)))

    def go(data: bytes):
        (tmp_path / "order.html").write_bytes(data)
        opened.goto((tmp_path / "order.html").as_uri())
        return opened

    yield go
    opened.close()


def test_a_browser_asks_for_the_file_alone_and_nothing_speaks(show, page, hostile):
    for data in (page, hostile):
        opened = show(data)
        opened.wait_for_timeout(200)
        assert (len(opened.asked), opened.spoken) == (1, [])
        opened.asked.clear()


@pytest.mark.parametrize("width", [360, 800, 1280])
def test_nothing_runs_off_the_side_of_a_screen(show, page, hostile, width):
    for data in (page, hostile):
        opened = show(data)
        opened.set_viewport_size({"width": width, "height": 800})
        assert opened.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize(("paper", "size"), [("A4", "(A4)"), ("Letter", "(letter)")])
def test_a_cover_and_two_panels_a_page_on_paper(show, page, tmp_path, paper, size):
    path = tmp_path / "order.pdf"
    show(page).pdf(path=str(path), format=paper)
    assert size in subprocess.run(["pdfinfo", str(path)], check=True, capture_output=True, text=True).stdout
    text = subprocess.run(["pdftotext", "-layout", str(path), "-"], check=True, capture_output=True, text=True).stdout
    pages = text.split("\f")[:-1]
    begun = [re.findall(r"^\s*Panel (A\d)\b", one, re.MULTILINE) for one in pages]
    assert [marks for marks in begun if marks] == [["A1", "A2"], ["A3", "A4"], ["A5"]]
    assert len(pages) <= 5
    for one, marks in zip(pages, begun, strict=True):
        assert len(re.findall("Width, across", one)) == len(re.findall(r"Grip:", one)) == len(marks)
    for number, one in enumerate(pages, 1):
        assert (
            one.rstrip().splitlines()[-1].split() == f"Glass order, Boathouse deck, not issued {number} of {len(pages)}".split()
        )
