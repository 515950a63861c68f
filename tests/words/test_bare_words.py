"""No template, and no page or form behind it, says a word that does not go through gettext."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import jinja2
import pytest
from jinja2 import nodes

import repairlog

TEMPLATES = sorted(Path(repairlog.__file__).parent.rglob("templates/**/*.html"))
ENVIRONMENT = jinja2.Environment(extensions=["jinja2.ext.i18n"], autoescape=True)
READ_OUT = ("alt", "aria-label", "placeholder", "title", "label")
"""Attributes whose value a person sees or hears."""

WEB = sorted((Path(repairlog.__file__).parent / "web").rglob("*.py"))
"""What makes pages and their forms."""

SAID = ("_", "ngettext", "of_number")
"""What a text goes through that a person reads."""

SEVERAL = re.compile(r"[^\W\d_]{2,} [^\W\d_]{2,}")
"""Two words one after the other: what people read, where codes and names of ours are one."""

NO_SENTENCES = {
    "do plain",  # names of looks
    "standing wants",
    "101.325 kPa absolute",  # as a person would type it
    "Samsung Internet",  # names of browsers
    "the book cannot be read\n",  # for probes and logs, in one language
    "signing in was put off for %s seconds, asked from %s",
    "a browser in which somebody signed in",  # what a secret is for
}

OUR_NAME = "RepairLog"
HOLE = "\N{WHITE SQUARE}"
"""Stands where a template puts in what it is given."""


class Words(HTMLParser):
    """Collects what a person reads: text outside of tags, and attributes that are read out."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inside: list[str] = []

    def handle_data(self, data: str) -> None:
        if "code" not in self.inside[-1:]:  # a command is the same in every language
            self._take(data)

    def handle_endtag(self, tag: str) -> None:
        if tag in self.inside:
            del self.inside[-1 - self.inside[::-1].index(tag) :]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside.append(tag)
        for name, value in attrs:
            if name in READ_OUT or (tag == "input" and name == "value" and dict(attrs).get("type") == "submit"):
                self._take(value or "")

    def _take(self, text: str) -> None:
        said = re.sub(r"""[\w-]+=("[^"]*"|'[^']*')""", "", text)  # attributes that a template gives to another
        if re.search(r"[^\W\d_]", said.replace(OUR_NAME, "")):
            self.found.append(" ".join(text.split()))


def bare_words(source: str) -> list[str]:
    """Every text of the template that is written out in it, and not through `_` or a trans block."""
    reader = Words()
    reader.feed("".join(_written(ENVIRONMENT.parse(source))))
    reader.close()
    return reader.found


def _written(node: nodes.Node) -> Iterator[str]:
    """What stands in the template itself, in its order."""
    if isinstance(node, nodes.Output):
        yield from (each.data if isinstance(each, nodes.TemplateData) else HOLE for each in node.nodes)
    else:
        for child in node.iter_child_nodes():
            yield from _written(child)


def bare_in_expressions(source: str) -> list[str]:
    """Every text of several words that the template puts in from an expression, and not through `_`."""
    return [text for text in _constants(ENVIRONMENT.parse(source)) if SEVERAL.search(text)]


def _constants(node: nodes.Node) -> Iterator[str]:
    if isinstance(node, nodes.Call) and isinstance(node.node, nodes.Name) and node.node.name in SAID:
        return
    if isinstance(node, nodes.Const) and isinstance(node.value, str):
        yield node.value
    for child in node.iter_child_nodes():
        yield from _constants(child)


def bare_in_python(source: str) -> list[str]:
    """Every text of several words in it that is neither a docstring nor goes through `_`."""
    return [text for text in _texts(ast.parse(source)) if SEVERAL.search(text)]


def _texts(node: ast.AST) -> Iterator[str]:
    if isinstance(node, ast.Call) and getattr(node.func, "id", getattr(node.func, "attr", "")) in SAID:
        return
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    for child in ast.iter_child_nodes(node):
        yield from _texts(child)


def test_no_template_puts_in_bare_words_from_an_expression():
    found = {text for each in TEMPLATES for text in bare_in_expressions(each.read_text(encoding="utf-8"))}
    assert found - NO_SENTENCES == set()


def test_no_page_and_no_form_says_words_that_do_not_go_through_gettext():
    found = {text for each in WEB for text in bare_in_python(each.read_text(encoding="utf-8"))}
    assert found - NO_SENTENCES == set()


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda file: f"{file.parent.name}/{file.name}")
def test_no_template_says_a_word_that_does_not_go_through_gettext(template):
    assert bare_words(template.read_text(encoding="utf-8")) == []


def test_there_are_templates_to_look_at():
    assert len(TEMPLATES) > 15


def test_a_bare_word_is_found_wherever_a_person_would_read_it():
    page = (
        '<p class="note">{{ _("Told") }} bare {% if x %}word{% endif %}</p><img alt="picture">'
        '{% trans %}also told{% endtrans %}<input type="submit" value="Go"><input name="value" value="kept">'
        "RepairLog<code>init</code>"
    )
    assert bare_words(page) == [f"{HOLE} bare word", "picture", "Go"]
    assert bare_in_expressions("{{ box(_('Told'), 'Two bare', x if y else 'more of them') }}") == [
        "Two bare",
        "more of them",
    ]


def test_a_bare_label_of_a_form_is_found():
    page = '''"""About a page."""
Part(labels={"happened": _("When it was found"), "named": "Who was there"}, hint="Leave it empty")'''
    assert bare_in_python(page) == ["Who was there", "Leave it empty"]
