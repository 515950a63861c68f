"""A picture is chosen on a telephone, kept through a touch of Now, and seen on the sheet; and a fold opens by touch."""

from io import BytesIO

from PIL import Image

from tests.makers.browser import PHONE


def test_a_picture_is_attached_from_a_phone_and_seen_on_the_sheet(live):
    made = BytesIO()
    Image.new("RGB", (300, 200), "grey").save(made, "JPEG")
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{served}/attach"))
        chosen = {"name": "pit.jpg", "mimeType": "image/jpeg", "buffer": made.getvalue()}
        page.locator("input[type=file]").set_input_files(chosen)
        page.get_by_role("button", name="Now").click()
        page.get_by_text("pit.jpg is here already").wait_for()
        page.get_by_role("button", name="Save it").click()
        picture = page.locator(".attached img").last
        picture.wait_for()
        assert picture.evaluate("image => image.naturalWidth") == 300
        assert window.troubles == []


def test_what_is_rarely_known_is_reached_by_one_touch(live):
    with live.seen_by("crew", PHONE) as window:
        page = window.page
        page.goto(live.filled("/leaks/{served}/digs/{dry}/pipe"))
        rare = page.locator("#step-part_kept")
        assert not rare.is_visible()
        page.get_by_text("More, where it is known").click()
        assert rare.is_visible()
        assert window.troubles == []
