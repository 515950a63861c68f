"""Every page of the site, with addresses at which a test can look at it on the full book."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from flask import Flask

from repairlog import web

NO_PAGES = {"drawn.file", "files.whole", "files.picture", "first.page", "healthy.page"}
"""Answers to GET that nobody reads: a file, the way to another page, a word for probes."""

ENTERS_NOTHING = {"unfinished.away", "unfinished.send_back", "mine.page", "person_signs_in.page", "cure_of_file.page"}
"""Pages with a form that makes no entry, and so has nothing that could not be read."""

ROLES = {
    "frame": None,
    "everyone": "officer",
    "crew": "crew",
    "dispatch": "crew",
    "supervisor": "supervisor",
    "officer": "officer",
    "admin": "administrator",
    "stores": "supervisor",
}
"""Who looks at the pages of a room; the frame's are for nobody yet."""

ADDRESSES = {
    "today.page": ("/today",),
    "calls.page": ("/calls", "/calls?street=no+such+street", "/calls?from=soon&status=warm"),
    "call.page": ("/calls/{call}", "/calls/{customers_call}"),
    "new_call.page": ("/calls/new",),
    "call_steps.page": ("/calls/{call}/send", "/calls/{call}/outcome", "/calls/{call}/told"),
    "area_says.typing_time": ("/areas/{area}/typing-time",),
    "area_says.own_acceptance": ("/areas/{area}/own-acceptance",),
    "call_gaps.set_aside": ("/calls/{wrong_call}/entries/{went}/gaps/stands_on_a_call_received_in_error",),
    "opens_leak.page": ("/calls/{same_call}/leak",),
    "leaks.page": ("/leaks", "/leaks?street=no+such+street", "/leaks?from=soon&status=warm"),
    "sheet.page": ("/leaks/{ended}", "/leaks/{joined}", "/leaks/{longest}"),
    "owed.page": ("/leaks/{ended}/owed", "/leaks/{longest}/owed?rulebook=us-guide"),
    "put_right.page": ("/leaks/{ended}/entries/{visit}/right", "/leaks/{ended}/entries/{attempt}/right"),
    "put_right.void": ("/leaks/{ended}/entries/{attempt}/void",),
    "put_right.of_books": ("/books/{meter}/entries/{meter}/right", "/books/{crew_leader}/entries/{evaluated}/right"),
    "put_right.void_of_books": ("/books/{meter}/entries/{meter}/void",),
    "records.page": ("/records?by=ended&from=2026-01-01", "/records?crew=none&notes=dog&street=nowhere&by=dusk"),
    "records.stories": ("/records/stories", "/records/stories?street=nowhere"),
    "looked_at.page": ("/looked-at", "/looked-at?who=nobody&from=soon"),
    "rulebooks.page": ("/rulebooks",),
    "rulebooks.one": ("/rulebooks/us-guide?on=soon", "/rulebooks/us-federal-2023?only=unconfirmed"),
    "people.page": ("/people", "/people?qualified=lapsed&on=soon&crew=none", "/people?name=nobody"),
    "person.page": ("/people/{crew_leader}", "/people/{guest}"),
    "person_said.new": ("/people/new",),
    "person_said.page": tuple(
        "/people/{crew_leader}/" + said for said in ("role", "role-ended", "qualified", "not-qualified", "left")
    ),
    "sign_ins.page": ("/people/{crew_leader}/sign-ins",),
    "person_signs_in.page": ("/people/{guest}/sign-in", "/people/{crew_leader}/sign-in"),
    "companies.page": ("/companies", "/companies?what=none&text=weir"),
    "companies.unknown": ("/companies/not-on-the-books",),
    "out_of_term.page": ("/companies/outside-their-terms", "/companies/outside-their-terms?company={company}"),
    "company.page": ("/companies/{company}", "/companies/{no company}"),
    "company_said.new": ("/companies/new?name=Saltmarsh+Gas",),
    "company_said.page": tuple("/companies/{company}/" + said for said in ("left", "back")),
    "crews.page": ("/crews",),
    "crews.one": ("/crews/{crew}",),
    "crews.new": ("/crews/new",),
    "crews.change": ("/crews/{crew}/change",),
    "instruments.page": ("/instruments", "/instruments?standing=never&on=soon&area=nowhere", "/instruments?text=none"),
    "instrument.page": ("/instruments/{meter}",),
    "visitors.page": ("/people/visiting",),
    "instrument_said.new": ("/instruments/new",),
    "instrument_said.page": tuple("/instruments/{meter}/" + said for said in ("calibrated", "check", "retired")),
    "adoptions.page": ("/rulebooks/areas/{area}",),
    "adoptions.adopt": ("/rulebooks/areas/{area}/adopt/us-federal-2023",),
    "adoptions.confirm": ("/rulebooks/areas/{area}/confirm/permanent",),
    "adoptions.working_days": ("/rulebooks/areas/{area}/working-days",),
    "adoptions.void": ("/rulebooks/areas/{area}/adopted/{sure}/void",),
    "places.page": ("/places", "/places?text=no+such+street", "/places?what=hole&area=nowhere"),
    "places.one": ("/places/{place}",),
    "places.street": ("/places/streets/{street}",),
    "digs_listed.page": ("/digs", "/digs?status=warm&found=gold&area=nowhere", "/digs?number=none"),
    "work_listed.page": ("/work", "/work?whom=nobody&work=none"),
    "shelves.page": ("/stores/shelves",),
    "shelves.one": ("/stores/shelves/{shelf}",),
    "stores.temperature": ("/stores/shelves/{shelf}/temperature",),
    "operator.page": ("/operator/{operator}",),
    "every_sign_in.page": ("/sign-ins",),
    "place_said.new": ("/places/new",),
    "place_said.retire": ("/places/{place}/retire",),
    "moves.page": ("/moved",),
    "moves.move": ("/moved/{served}", "/moved/{dry}?leak={served}"),
    "made_one.choose": ("/books/{place}/same?text=no+such", "/books/{clamps}/same"),
    "made_one.page": ("/books/{clamps}/same/{tape}",),
    "made_one.choose_street": ("/places/streets/{street}/same",),
    "made_one.street": ("/places/streets/{street}/same/{other_street}",),
    "areas.page": ("/areas",),
    "areas.one": ("/areas/{area}",),
    "areas.new": ("/areas/new",),
    "areas.cut_over": ("/areas/{area}/cut-over",),
    "mine.page": ("/mine",),
    "figures.page": ("/figures",),
    "figures.one": (
        "/figures/flow",
        "/figures/hold?volume=23+ft3&start=100+psi+%40+60+F&end=99+psi+%40+60+F&hours=24",
        "/figures/pipe?material=steel&nps=2&schedule=41&pressure=-1+psi",
        "/figures/grade?reading=45+%25LEL&place=outside_wall&leak={ended}",
        "/figures/cure?log=0,20%0D%0A1,20%0D%0A9,20&reference=20+C&q=5000",
    ),
    "cure_of_file.page": ("/figures/cure/file?leak={ended}",),
    "lots.page": ("/stores", "/stores?item=no+such", "/stores?status=warm&days=soon&area=ZZ"),
    "lots.one": ("/stores/lots/{clamps}", "/stores/lots/{tape}"),
    "stores.receive": ("/stores/receive",),
    "stores.shelf": ("/stores/shelf",),
    "stores.page": ("/stores/lots/{clamps}/move", "/stores/lots/{clamps}/count"),
    "figures_kept.page": ("/leaks/{ended}/figures/flow/keep?hole=1%2F16+in&pressure=45+psi",),
    "lost.page": ("/leaks/{ended}/lost?basis=measured&hole=1%2F16+in", "/leaks/{served}/lost"),
    "paper.page": ("/paper",),
    "paper.form": ("/paper/visit", "/paper/repair_attempted", "/paper/leak_opened"),
    "due.page": ("/due", "/due?when=late&text=quarry", "/due?when=soon&area=nowhere&who=them"),
    "gaps.page": ("/gaps", "/gaps?code=expired_lot_used&from=soon&area=nowhere", "/gaps?aside=yes&from=2030-01-01"),
    "gaps.set_aside": ("/leaks/{reopened}/entries/{worked}/gaps/person_not_on_the_books?row=people.p2",),
    "works.waiting": ("/leaks/{reopened}/waiting",),
    "works.goes_on": ("/leaks/{reopened}/goes-on",),
    "works.briefing": ("/leaks/{reopened}/briefing",),
    "works.settle": ("/leaks/{from_call}/given/{in_hand}",),
    "orders.give": ("/leaks/{reopened}/give",),
    "orders.schedule": ("/leaks/{reopened}/schedule",),
    "orders.reopen": ("/leaks/{ended}/reopen",),
    "orders.review": ("/leaks/{reopened}/grades/{lower}/review",),
    "sign_in.page": ("/sign-in",),
    "openings.page": ("/leaks/new",),
    "first_hour.page": ("/leaks/{longest}/first-hour", "/leaks/{ended}/first-hour"),
    "first_hour.typed": tuple("/leaks/{ended}/first-hour/" + at for at in ("moment", "told", "watch")),
    "visits.page": ("/leaks/{ended}/visit?purpose=re_evaluation", "/leaks/{longest}/visit"),
    "grades.page": ("/leaks/{ended}/grade",),
    "sources.page": ("/leaks/{ended}/source",),
    "otherwise.page": ("/leaks/{served}/sources/{main}/otherwise?dig={dig}",),
    "repairs.page": ("/leaks/{ended}/repair", "/leaks/{longest}/repair"),
    "digs.opening": ("/leaks/{ended}/dig",),
    "digs.page": tuple(
        "/leaks/{served}/digs/{dry}/" + step
        for step in ("found", "pipe", "backfill", "owed", "restored", "note", "number")
    ),
    "attachments.page": ("/leaks/{ended}/attach",),
    "ties.number": ("/leaks/{ended}/number",),
    "ties.link": ("/leaks/{ended}/link",),
    "links.choose": ("/linked/{ended}?text=quarry", "/linked/{call}?text=none", "/linked/{dry}?leak={served}"),
    "links.page": ("/linked/{ended}/{dry}",),
    "on_books.page": ("/books/{place}/note", "/books/{call}/number"),
    "attachments.to_books": ("/books/{clamps}/attach",),
    "notes.page": ("/leaks/{ended}/note",),
    "tests.page": ("/leaks/{ended}/attempts/{attempt}/test",),
    "reviews.page": ("/leaks/{ended}/attempts/{attempt}/review",),
    "emergencies.page": ("/leaks/{from_call}/emergency-review", "/leaks/{longest}/emergency-review"),
    "endings.page": ("/leaks/{ended}/end", "/leaks/{longest}/end"),
    "unfinished.page": ("/unfinished",),
    "unfinished.one": ("/unfinished/{unfinished}",),
    "unfinished.away": ("/unfinished/{unfinished}/throw-away",),
    "unfinished.send_back": ("/unfinished/{refused}/send-back",),
}
"""By endpoint. In braces stand names of the full book's entries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """`room`: which package of `web` draws it. `enters`: whether its form makes entries."""

    endpoint: str
    room: str
    enters: bool

    @property
    def role(self) -> str | None:
        """Who looks at it: whoever oversees the crew, where it is about what the crew was refused."""
        return "supervisor" if self.endpoint == "unfinished.send_back" else ROLES[self.room]


@cache
def pages() -> dict[str, Page]:
    """Every page that the site's own map of addresses has, by endpoint."""
    app = Flask("the map alone", static_folder=None)
    for routes in web.ROUTES:
        app.register_blueprint(routes)
    shown = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())} - NO_PAGES
    sent = {rule.endpoint for rule in app.url_map.iter_rules() if "POST" in (rule.methods or ())} - ENTERS_NOTHING
    rooms = {endpoint: app.view_functions[endpoint].__module__.split(".")[2] for endpoint in shown}
    return {name: Page(endpoint=name, room=rooms[name], enters=name in sent) for name in sorted(shown)}
