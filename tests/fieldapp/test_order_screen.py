"""The order's page and the page on which it is issued, in this process."""

from fieldapp.words import say
from tests.fieldapp.test_walk_screen import keyed, on_deck


async def taped(desk, job, bay, span):
    """Span and level rise of a bay."""
    await desk.keep_reading(job, "Mona", bay=bay, what="span", value=span)
    await desk.keep_reading(job, "Mona", bay=bay, what="rise", value="0")


def test_a_panel_that_is_free_only_after_an_order_went_out_is_ordered_by_its_change(tmp_path):
    async def steps(phone):
        desk, job = phone.desk, phone.job
        await taped(desk, job, "A1", "40 1/2")
        await desk.issue_order(job, "Mona")
        change = say("order.change", number="1.1")
        phone.app.go("order", job=job)
        await phone.settle()
        assert phone.sees(say("order.same")) and not phone.sees(f"{change} …")
        await taped(desk, job, "A2", "40 1/2")
        phone.app.redraw()
        await keyed(phone, f"{change} …")
        await keyed(phone, say("order.change_of", change=change, tags="A2"))
        assert phone.sees(say("settings.name_needed")) and len(desk.orders(job)) == 1
        await keyed(phone, "Mona", say("order.change_of", change=change, tags="A2"))
        assert [[p["panel"] for p in order.panels] for order in desk.orders(job)] == [["A1"], ["A1", "A2"]]

    on_deck(tmp_path, steps, read_back="no")
