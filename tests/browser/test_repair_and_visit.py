"""What a crew sees while it types: numbers, readings and endings are said back at once, and nothing is saved by it."""

from tests.makers.browser import PHONE


def test_a_lot_number_is_said_back_and_a_further_row_leaves_what_was_typed(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{ended}/repair"))
        page.locator("#repair-method").fill("wrap")
        page.locator("#repair-materials-0-named").fill("w-0118")
        page.locator("#repair-materials-0-used").focus()
        page.locator("#repair-materials-0-heard .heard").wait_for()
        said = page.locator("#repair-materials-0-heard").inner_text()
        page.get_by_role("button", name="Add a lot").click()
        page.locator("#repair-materials-1-named").wait_for()
        kept = [page.locator(box).input_value() for box in ("#repair-method", "#repair-materials-0-named")]
        assert said.startswith("wrap tape, 2 in")
        assert kept == ["wrap", "w-0118"]
        assert window.troubles == []


def test_the_unit_chosen_once_brings_the_keyboard_of_numbers_and_each_reading_is_said_back(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{ended}/visit?purpose=re_evaluation"))
        box = page.locator(".holes input:visible").first
        assert box.get_attribute("inputmode") is None
        page.get_by_label("%LEL", exact=True).check()
        page.locator(".holes input[inputmode=decimal]").first.wait_for()
        page.locator(".holes input:visible").first.fill("40")
        page.locator(".holes input:visible").first.blur()
        page.locator(".holes .heard").first.wait_for()
        assert "2 %gas" in page.locator(".holes .heard").first.inner_text()
        assert page.locator(".holes input:visible").first.input_value() == "40"
        assert window.troubles == []


def test_what_comes_of_an_ending_is_said_as_repairs_are_ticked(live):
    with live.seen_by("supervisor", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{ended}/end"))
        page.get_by_label("Repaired").check()
        ticks = page.locator(".for-repair input[type=checkbox]")
        for tick in ticks.all():
            tick.uncheck()
        page.get_by_text("No repair is ticked.").wait_for()
        page.get_by_label("Another gas").check()
        page.locator(".for-repair").wait_for(state="hidden")
        assert ticks.count() > 0
        assert window.troubles == []
