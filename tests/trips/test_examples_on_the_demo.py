"""The examples of the schema on the demo: fetched, and posted as they stand by each role that may, twice."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask.testing import FlaskClient

from repairlog.access.posts import POSTS, in_area
from repairlog.app import create_app
from repairlog.entries.kinds import KINDS, RIGHTING
from repairlog.entries.operator import ROLES
from repairlog.records.store import open_store
from repairlog.records.verify import verify
from repairlog.settings import Settings
from tests.makers.demo import Demo
from tests.makers.program import Program
from tests.makers.rulebooks import RULEBOOKS

MAY = {role: {kind for kind in KINDS if POSTS[kind].get(role) is in_area} for role in ROLES}
MOVES = {role: {"subject_moved"} for role in ("officer", "storekeeper", "administrator")}
"""An instrument goes to another area: whoever is of both moves it, if they may add one."""

PUTS_RIGHT = {"supervisor": {*RIGHTING}, "officer": {*RIGHTING}, "administrator": {"void"}}
"""The corrected entry is a visit, the void one a note, both of some weeks ago: the crew's own day for it is over."""


@pytest.fixture
def client(sqlite_demo: Demo) -> Iterator[FlaskClient]:
    """The application on the demo's book."""
    app = create_app(Settings(database_url=sqlite_demo.url))
    yield app.test_client()
    app.extensions["repairlog.store"].close()


@pytest.mark.parametrize("role", ROLES)
def test_a_role_posts_the_examples_of_what_it_may_and_no_others(
    sqlite_demo: Demo, client: FlaskClient, role: str
) -> None:
    sent = Program(client, str(sqlite_demo.signs_in(role)["token"]))
    kinds = client.get("/api/entries/schema").get_json()["$defs"]
    answers: dict[str, set[tuple[int, int]]] = {}
    for kind, of_kind in kinds.items():
        for example in of_kind["examples"] if kind != "operator_opened" else ():
            first, again = sent.post(example), sent.post(example)
            assert first.get_json() == again.get_json()
            answers.setdefault(kind, set()).add((first.status_code, again.status_code))
    may = (MAY[role] | PUTS_RIGHT.get(role, set()) | MOVES.get(role, set())) - {"operator_opened"}
    assert answers == {kind: {(201, 200) if kind in may else (403, 403)} for kind in answers}
    assert set(answers) == set(KINDS) - {"operator_opened"}
    _verified(sqlite_demo)


def _verified(demo: Demo) -> None:
    store = open_store(demo.url, rulebooks=RULEBOOKS)
    try:
        assert verify(store).problems == ()
    finally:
        store.close()


def test_every_kind_is_posted_by_some_role() -> None:
    assert set.union(*MAY.values(), *PUTS_RIGHT.values(), *MOVES.values()) == set(KINDS)
