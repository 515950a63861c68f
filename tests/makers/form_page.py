"""A page's form as a browser holds it: what stands in each box, and what the page says beside it."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass, field
from html.parser import HTMLParser

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

VOID = {"input", "meta", "link", "br", "img", "hr"}


@dataclass
class FormPage:
    """`boxes`: by name, what would be sent, beside the page's `token`. `offers`: by name, the values and words of a box
    of choices. `texts`: by id, the text of everything that has one."""

    boxes: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    offers: dict[str, list[tuple[str, str]]] = field(default_factory=lambda: defaultdict(list))
    texts: dict[str, str] = field(default_factory=dict)
    token: str = ""

    def said(self, id: str) -> str:
        """What stands under the box of that id."""
        return self.texts.get(f"{id}-said", "")


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.page = FormPage()
        self.open: list[tuple[str, str]] = []
        self.select = self.area = self.option = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag not in VOID:
            self.open.append((tag, given.get("id", "")))
        if given.get("id"):
            self.page.texts[given["id"]] = ""
        name = given.get("name", "")
        if tag == "input" and (given.get("type") not in ("checkbox", "radio") or "checked" in given):
            self.page.boxes[name].append(given.get("value", ""))
        elif tag == "select":
            self.select = name
        elif tag == "option":
            self.option = given["value"]
            self.page.offers[self.select].append((self.option, ""))
            if "selected" in given:
                self.page.boxes[self.select].append(self.option)
        elif tag == "textarea":
            self.area = name
            self.page.boxes[name].append("")

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            self.open.pop()
        if tag == "select":
            if not self.page.boxes[self.select]:
                self.page.boxes[self.select].append(self.page.offers[self.select][0][0])
            self.select = ""
        if tag == "textarea":  # a line end at its very beginning is not part of it
            self.page.boxes[self.area][-1] = self.page.boxes[self.area][-1].replace("\r\n", "\n").removeprefix("\n")
            self.area = ""

    def handle_data(self, data: str) -> None:
        for _tag, id in self.open:
            if id:
                self.page.texts[id] = f"{self.page.texts[id]} {' '.join(data.split())}".strip()
        if self.area:
            self.page.boxes[self.area][-1] += data
        elif self.open and self.open[-1][0] == "option":
            value, words = self.page.offers[self.select][-1]
            self.page.offers[self.select][-1] = (value, words + data)


def form_page(answer: TestResponse) -> FormPage:
    """The form on the page that was answered."""
    found = re.search(r'<form id="entering".*?</form>', answer.text, re.DOTALL)
    assert found, f"no form, but: {answer.status} {answer.text[:2000]}"
    reader = _Reader()
    reader.feed(found[0])
    (reader.page.token,) = reader.page.boxes.pop("csrf_token")
    return reader.page


def fill_in(client: FlaskClient, address: str, *, press: str = "save=all", **typed: str | list[str]) -> TestResponse:
    """Open the page, type into boxes (`repair__method` for `repair-method`) and press a button, `name=value`."""
    return press_on(client, address, form_page(client.get(address)), press=press, **typed)


def press_on(
    client: FlaskClient, address: str, page: FormPage, *, press: str = "save=all", **typed: str | list[str]
) -> TestResponse:
    """Type into the boxes of a page that is open already and press a button."""
    name, _, value = press.partition("=")
    boxes = {
        "csrf_token": page.token,
        **page.boxes,
        **{box.replace("__", "-"): it for box, it in typed.items()},
        name: value,
    }
    return client.post(address, data=boxes)
