"""A table as a file that a browser saves and a spreadsheet opens."""

import re
from typing import Annotated, Literal

from fastapi import Query, Response

Form = Annotated[Literal["json", "csv"], Query(alias="format", description="A page of JSON, or all as CSV.")]
_UNSAFE = re.compile(r"[^A-Za-z0-9._-]+")  # a header carries plain letters only


class CsvResponse(Response):
    """What the API's description says of such an address."""

    media_type = "text/csv; charset=utf-8"


def csv_file(text: str, name: str) -> Response:
    """CSV under a plain name."""
    plain = _UNSAFE.sub("-", name).strip("-.") or "file"
    headers = {"content-disposition": f'attachment; filename="{plain}.csv"'}
    return CsvResponse(text.encode(), headers=headers)
