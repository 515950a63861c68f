"""The application: the only place where pages, the interface for programs, settings and the book are put together."""

from __future__ import annotations

from hashlib import sha256

from flask import Flask
from flask_wtf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix

from repairlog import api, web, words
from repairlog.app.answers import answer_errors
from repairlog.app.headers import add_headers
from repairlog.records.beside.secret import secret
from repairlog.records.store import Store, open_store
from repairlog.rulebooks import rulebooks_of
from repairlog.settings import Settings
from repairlog.web.frame import files
from repairlog.web.frame.asking import IDLE
from repairlog.web.frame.files import Files

MOST_BYTES = 4 * 1024 * 1024
"""Of one request: far more than a call of a thousand entries, far less than what would fill a small machine."""


def create_app(settings: Settings) -> Flask:
    """The application over the book at the settings' address. Raises what `open_store` raises."""
    store = open_store(settings.database_url, rulebooks=rulebooks_of(settings.rulebooks))
    app = without_book(https=settings.https)
    lay_over(app, store, settings=settings)
    return app


def without_book(*, https: bool) -> Flask:
    """The application as it is over any book; it answers once it is laid over one."""
    app = Flask(__name__, static_folder=None)
    app.config.update(
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_SECURE=https,
        WTF_CSRF_TIME_LIMIT=None,  # as long as the sign-in: a form stays open for a night
        MAX_CONTENT_LENGTH=MOST_BYTES,
        MAX_FORM_MEMORY_SIZE=MOST_BYTES,
        MAX_FORM_PARTS=20_000,
    )
    if https:
        # The one proxy that ends https says whence a request comes; where there is none, anybody could say so.
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=1, x_proto=1, x_host=1)  # type: ignore[method-assign]
    app.before_request(files.let_files_in)  # before the forms are read, to see whether they are ours
    app.jinja_env.add_extension("jinja2.ext.i18n")
    app.jinja_env.install_gettext_callables(words._, _of_number, newstyle=True)  # type: ignore[attr-defined]
    app.jinja_env.trim_blocks = app.jinja_env.lstrip_blocks = True
    forgery = CSRFProtect(app)
    for routes in web.ROUTES:
        app.register_blueprint(routes)
    for routes in api.ROUTES:
        forgery.exempt(routes)  # programs show a token, which no other site can make a browser send
        app.register_blueprint(routes)
    answer_errors(app)
    add_headers(app, https=https)
    return app


def lay_over(app: Flask, store: Store, *, settings: Settings) -> None:
    """Let the application answer of that book, with that book's key for its cookies."""
    key = secret(store, "cookies")
    app.config.update(
        SECRET_KEY=key,
        # A browser tells ports of one machine not apart: two books that are served there have two names.
        SESSION_COOKIE_NAME=f"repairlog_{sha256(key).hexdigest()[:8]}",
    )
    app.config[IDLE] = settings.idle
    app.extensions["repairlog.store"] = store
    app.extensions["repairlog.files"] = Files(folder=settings.files, most=settings.upload_mb * 1_000_000)


def _of_number(one: str, many: str, number: int) -> str:
    return words.of_number(one, many, number=number)
