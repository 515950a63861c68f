"""Which addresses are ours: a person is sent nowhere else, nor is what they typed."""

from __future__ import annotations

from urllib.parse import urlsplit

from flask import current_app, request


def is_ours(address: str, *, method: str) -> bool:
    """Whether that address, a path with its query, is one of these pages and takes that method."""
    if not address.startswith("/") or "\\" in address or any(ord(char) <= 0x20 for char in address):
        return False  # a browser reads a backslash as a slash, and leaves out tabs and line ends
    try:
        parts = urlsplit(address)
    except ValueError:
        return False
    if parts.scheme or parts.netloc:
        return False
    return current_app.create_url_adapter(request).test(parts.path, method=method)  # type: ignore[union-attr]


def is_from_elsewhere() -> bool:
    """Whether a page of another site sent this request, as far as the browser says. Source: Fetch Metadata and Origin,
    as W3C and RFC 6454 have them."""
    if site := request.headers.get("Sec-Fetch-Site"):
        return site in ("cross-site", "same-site")
    origin = request.headers.get("Origin")
    return origin is not None and urlsplit(origin).netloc != request.host
