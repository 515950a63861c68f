"""Addresses of the pages on which a person adds something, where that person may."""

from __future__ import annotations

from typing import Any

from flask import current_app, url_for


def address_of(endpoint: str, **values: Any) -> str:
    """The address of that page; empty where there is none."""
    return url_for(endpoint, **values) if endpoint in current_app.view_functions else ""
