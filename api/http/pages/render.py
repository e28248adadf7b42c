"""How does a page become HTML?  One Jinja environment; everything a template shows is escaped."""

import secrets
from collections.abc import Mapping
from typing import Any

from jinja2 import ChainableUndefined, Environment, PackageLoader
from starlette.responses import HTMLResponse

from api.http.middleware.visitors import Visitor
from api.http.pages import answer_words, evidence_words, setting_words, words
from api.http.pages.change_words import change_words
from api.http.pages.columns import column_name
from api.http.pages.doubts import reason_in_words
from api.http.pages.tag_words import tags_words
from api.http.pages.time_left import time_left
from models.services.recalled_words import READ_WITH

# Chainable: a field that an evaluation does not have (yet) shows nothing, however deep a template asks for it.
TEMPLATES = Environment(
    loader=PackageLoader("api.http.pages", "templates"),
    autoescape=True,
    undefined=ChainableUndefined,
    lstrip_blocks=True,
)
TEMPLATES.filters.update(words.FILTERS)
TEMPLATES.filters.update(setting_words.FILTERS)
TEMPLATES.filters.update(answer_words.FILTERS)
TEMPLATES.filters.update(evidence_words.FILTERS)
TEMPLATES.filters["column_name"] = column_name
TEMPLATES.filters["change"] = change_words
TEMPLATES.filters["tags"] = tags_words
TEMPLATES.filters["time_left"] = time_left
TEMPLATES.filters["reason"] = lambda reason, key: reason_in_words(key, reason)
TEMPLATES.tests["read_with"] = lambda what: what.startswith(READ_WITH)
TEMPLATES.globals.update(words.GLOBALS)
TEMPLATES.globals["form_key"] = lambda: secrets.token_urlsafe(16)  # a form is known again when it is sent twice


def page(
    scope: Mapping[str, Any],
    template: str,
    context: Mapping[str, Any] | None = None,
    status: int = 200,
    headers: Mapping[str, str] | None = None,
) -> HTMLResponse:
    """One rendered page; every form of it finds its proof of origin in `csrf`."""
    visitor: Visitor | None = scope.get("state", {}).get("visitor")
    shared = {"csrf": visitor.csrf if visitor else "", "signed_in": visitor is not None, "here": scope["path"]}
    text = TEMPLATES.get_template(template).render(shared | dict(context or {}))
    return HTMLResponse(text, status, headers=dict(headers or {}))
