"""Which addresses are ours, even where some page would take every path."""

import pytest
from flask import Flask

from repairlog.web.frame.ours import is_ours

APP = Flask("any")
APP.add_url_rule("/<path:any>", "any", lambda any: any)


@pytest.mark.parametrize(
    ("address", "ours"),
    [
        ("/leaks", True),
        ("/leaks?street=Quarry+Lane&after=a/b", True),
        ("/\\elsewhere.example/leaks", False),
        ("/\t/elsewhere.example/leaks", False),
        ("/\n\\elsewhere.example", False),
        ("//elsewhere.example/leaks", False),
        ("https://elsewhere.example/leaks", False),
        ("leaks", False),
        ("", False),
    ],
)
def test_an_address_is_ours_where_no_browser_could_read_another_site_in_it(address: str, ours: bool) -> None:
    with APP.test_request_context():
        assert is_ours(address, method="GET") is ours


def test_an_address_is_ours_for_the_methods_that_its_page_takes() -> None:
    with APP.test_request_context():
        assert not is_ours("/leaks", method="POST")
