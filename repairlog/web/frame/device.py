"""What a browser says that it is, so that a person knows their own phone again in a list. It proves nothing."""

from __future__ import annotations

from repairlog.words import _

_BROWSERS = (
    ("Edg", "Edge"),
    ("OPR/", "Opera"),
    ("SamsungBrowser", "Samsung Internet"),
    ("Firefox", "Firefox"),
    ("FxiOS", "Firefox"),
    ("CriOS", "Chrome"),
    ("Chrome", "Chrome"),
    ("Safari", "Safari"),
)
"""What stands in a header, and the browser by its name; the first that stands there counts, for most say several."""

_SYSTEMS = (
    ("iPhone", "iPhone"),
    ("iPad", "iPad"),
    ("Android", "Android"),
    ("Windows", "Windows"),
    ("CrOS", "ChromeOS"),
    ("Macintosh", "macOS"),
    ("Linux", "Linux"),
)


def device_of(user_agent: str) -> str:
    """`Firefox, Android`: browser and system by their names, as far as the header tells; empty where it tells neither.
    Nothing else of the header is kept. Source of the header: RFC 9110, section 10.1.5."""
    return ", ".join(filter(None, (_first(_BROWSERS, user_agent), _first(_SYSTEMS, user_agent))))


def device_word(device: str) -> str:
    """The same as pages say it."""
    return device or _("a browser that does not say what it is")


def _first(named: tuple[tuple[str, str], ...], header: str) -> str:
    return next((name for sign, name in named if sign in header), "")
