"""Headers of every answer: nothing from elsewhere is loaded, nothing inline is run, nobody frames a page."""

from __future__ import annotations

from flask import Flask, Response, request

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Content Security Policy, level 3 of the W3C."""

ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "geolocation=(), camera=(), microphone=()",
}


def add_headers(app: Flask, *, https: bool) -> None:
    """Put them on every answer. What the book says is kept by no cache; what is drawn with is kept for a day."""

    @app.after_request
    def _add(response: Response) -> Response:
        for name, value in ALWAYS.items():
            response.headers[name] = value
        if https:
            response.headers["Strict-Transport-Security"] = "max-age=31536000"
        if request.method == "OPTIONS":
            del response.headers["Content-Type"]  # the header Allow is all that is told
        if request.endpoint != "drawn.file" or response.status_code >= 400:
            response.headers["Cache-Control"] = "no-store"
        return response
