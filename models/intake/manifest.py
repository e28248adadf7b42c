"""Manifest file -> lines.  A row that cannot be a line is set aside and named; all others are lines, duplicates too."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from models.intake.asking import asking_all
from models.intake.cells.amounts import Amounts, file_writes_comma
from models.intake.cells.cut_off import cut_off_cautions
from models.intake.cells.sourcing import saying_assorted, says_assorted_alone
from models.intake.cells.words import size_column_cautions
from models.intake.columns.vocabulary import MANIFEST
from models.intake.fields.category_path import category_column
from models.intake.fields.condition_header import condition_cautions
from models.intake.fields.goods_column import OPEN_AND_SAVE, UNSTORED, goods_column
from models.intake.fields.money_columns import money_columns
from models.intake.fields.number_columns import quantity_column, weight_column
from models.intake.fields.text_columns import condition_column, condition_words, gtin_column, text_column
from models.intake.fields.unread_money import tagless_cautions, unread_cautions
from models.intake.lines.boxes import box_cautions
from models.intake.lines.counted_in import with_units_beside
from models.intake.lines.counts_by_condition import unread_counts
from models.intake.lines.counts_inside import with_counts_inside
from models.intake.lines.counts_of_tags import with_counts_of_tags
from models.intake.lines.credits import set_credits_aside
from models.intake.lines.currency_column import other_currencies
from models.intake.lines.packs import PACK_SIZE, counts_cases, in_units, unread_sizes
from models.intake.lines.price_columns import tag_question
from models.intake.lines.tag_columns import TAG_COLUMNS, Told
from models.intake.lines.tags import Tags, tags_each
from models.intake.lines.worse_words import saying_broken, worse_words
from models.intake.many import in_small_letters, mostly_distinct
from models.intake.shape.findings import Findings
from models.intake.shape.stated import totals_said
from models.intake.shape.table import Table, read_table
from models.values.arrays import BoolArray, FloatArray, TextArray
from models.values.errors import Unreadable
from models.values.lines import LINE_COLUMNS, Lines
from models.values.money import minor_digits
from models.values.problems import Caution, Problems
from models.values.questions import is_answer, plain_answers
from models.values.stated_totals import counted, disagreements

_IF_A_TAG = "If one of them is the tag, say which column the tag is."


@dataclass(frozen=True)
class ReadManifest:
    """A manifest as columns; `mapping` says which header was taken for which canonical column, of all `headers`.

    `confidence` says how sure each of them is, 0 to 1; `unfound` are columns named by a header the file does not have.
    """

    lines: Lines
    problems: Problems
    cautions: tuple[Caution, ...]
    mapping: dict[str, str]
    headers: tuple[str, ...] = ()
    confidence: Mapping[str, float] = field(default_factory=dict)
    unfound: tuple[str, ...] = ()


def read_manifest(data: bytes, filename: str, mapping: Mapping[str, str], currency: str) -> ReadManifest:
    """Read a manifest.

    Parameters
    ----------
    data : bytes
        The whole file: CSV (comma, semicolon, tab, pipe), XLSX, XLS or ODS, told by its content.
    filename : str
        Its name, for messages only.
    mapping : mapping
        {canonical: header in file}; headers the file does not have are passed over.
    currency : str
        ISO 4217 code the amounts are in; nothing is converted.

    Returns
    -------
    ReadManifest
        Money [minor units] a unit.

    Raises
    ------
    Unreadable
        If the file is empty, broken, no table, or holds no line; then it carries the problems of its rows.
    NeedsColumns
        If no column is recognised as the description, or anything else that only the seller knows must be asked.
    TooLarge
        If it is over a limit of rows, columns or size.
    Rejected
        If the currency or a key of the mapping cannot be used.

    Examples
    --------
    >>> data = b"Item,Qty,Ext. Retail\\nBlue mug,2 EA,$19.00\\nJug,-1,5\\nTotal,1,24\\n"
    >>> read = read_manifest(data, "m.csv", {}, "USD")
    >>> read.lines.tag_each.tolist(), read.problems.rows, read.problems.kept, read.problems.items[0].reason
    ([950.0], 2, 1, 'the quantity is negative')
    >>> read.mapping
    {'description': 'Item', 'quantity': 'Qty', 'tag_line': 'Ext. Retail'}
    """
    minor_digits(currency)
    answers = plain_answers(mapping)
    return asking_all(lambda told: _read(_table(data, filename, told), filename, told, currency), answers)


def _table(data: bytes, filename: str, mapping: Mapping[str, str]) -> Table:
    table = read_table(data, filename, MANIFEST, mapping)
    sizes = unread_sizes(table, mapping)
    return read_table(data, filename, MANIFEST, {**mapping, PACK_SIZE: sizes}) if sizes else table


def _read(table: Table, filename: str, mapping: Mapping[str, str], currency: str) -> ReadManifest:
    findings = Findings(table.rows, table.headers)
    table = with_counts_inside(with_units_beside(table), findings)
    description = goods_column(table, findings)
    comma = file_writes_comma(table.having(TAG_COLUMNS), table.comma_likely)
    table = with_counts_of_tags(table, mapping, currency, findings)
    count = quantity_column(table, comma, findings)
    quantity = in_units(table, count, mapping, comma, findings)
    amounts, currency_cautions = money_columns(table, TAG_COLUMNS, currency, findings, mapping)
    currency_cautions += other_currencies(table, currency, findings)
    set_credits_aside(table, amounts, findings)
    cases = counts_cases(table, mapping)
    stated = totals_said(table.outline, comma, minor_digits(currency), cases) if table.outline else ()
    tags = tags_each(table, amounts, quantity, Told(mapping, stated, currency, description), findings)
    condition = condition_column(table, findings, mapping)
    if question := tag_question(table, quantity, mapping, currency):
        findings.ask(question)
    findings.require_answers(table.names, _used(table, tags, {}))
    pieces = list(in_small_letters(mostly_distinct(description.tolist())))
    read = {"description": description, "quantity": quantity, "tag_each": tags.each, "condition": condition}
    lines = _lines(table, findings, read, comma, saying_assorted(pieces))
    cases_kept = count[~findings.aside].astype(np.float64) if cases else None
    problems = replace(findings.problems(), stated=counted(stated, lines, cases_kept))
    if not len(lines):
        raise Unreadable(_no_lines(filename, problems, table.cautions), problems=problems)
    cautions = (
        *table.cautions,
        *currency_cautions,
        *tags.cautions,
        *condition_cautions(table, mapping),
        *_uncounted(table),
        *unread_cautions(table, _tags_read(table, tags, amounts), quantity, currency, _IF_A_TAG),
        *tagless_cautions(table, tags.each, currency),
        *disagreements(problems.stated, currency),
        *cut_off_cautions(kept := lines.description.tolist()),
        *worse_words(lines, saying_broken(pieces)),
        *box_cautions(kept, lines.row, pieces),
        *size_column_cautions(table.unread),
        *unread_counts(table.unread, table.headers.get("quantity", "")),
    )
    used = _used(table, tags, mapping)
    return ReadManifest(lines, problems, cautions, used, table.names, table.confidence, table.unfound)


def _used(table: Table, tags: Tags, given: Mapping[str, str]) -> dict[str, str]:
    """Given back to `read_manifest`, it reads the same file the same way."""
    columns = {name: header for name, header in table.headers.items() if name in LINE_COLUMNS}
    for name in TAG_COLUMNS:
        if name in tags.headers:
            columns[name] = tags.headers[name]
        elif name in table.columns:
            columns.pop(name)
    return columns | {key: given[key] for key in given if is_answer(key)}


def _lines(table: Table, findings: Findings, read: dict[str, Any], comma: bool, mixed: set[str]) -> Lines:
    """The kept rows; the columns read before, and the others read here."""
    brand = text_column(table, "brand", findings)
    columns = read | {
        "row": table.rows,
        "brand": brand,
        "category": category_column(table, findings),
        "condition_said": condition_words(table),
        "sku": text_column(table, "sku", findings),
        "gtin": gtin_column(table, findings),
        "weight_kg": weight_column(table, comma, findings),
        "pallet": text_column(table, "pallet", findings),
        "assorted": _assorted(read["description"], brand, mixed),
    }
    if findings.aside.any():
        columns = {name: column[~findings.aside] for name, column in columns.items()}
    return Lines(no=np.arange(1, len(columns["row"]) + 1), **columns)


def _assorted(description: TextArray, brand: TextArray, mixed: set[str]) -> BoolArray:
    mixed_brand = {maker for maker in dict.fromkeys(brand.tolist()) if maker != "" and says_assorted_alone(maker)}
    if not mixed and not mixed_brand:
        return np.zeros(len(description), dtype=bool)
    said = [words in mixed or maker in mixed_brand for words, maker in zip(description, brand, strict=True)]
    return np.array(said, dtype=bool)


def _tags_read(table: Table, tags: Tags, amounts: Mapping[str, Amounts]) -> dict[str, FloatArray]:
    """Amounts of one unit before those of the line, by the file's own headers."""
    by_header = {table.headers[name]: read.minor for name, read in amounts.items()}
    return {header: by_header[header] for _, header in sorted(tags.headers.items()) if header in by_header}


def _uncounted(table: Table) -> tuple[Caution, ...]:
    if "quantity" in table.columns:
        return ()
    return (
        Caution(
            "The file has no quantity column: every line counts as one unit.",
            "Count the units, or say which column holds them.",
        ),
    )


def _no_lines(filename: str, problems: Problems, cautions: Sequence[Caution]) -> str:
    if not problems.rows:
        return " ".join((f"{filename} has a header but no lines.", *(one.what for one in cautions)))
    first = problems.items[0]
    said = (
        f"{filename} has no usable line: all {problems.rows} rows were set aside, the first (row {first.row}) because: "
        f"{first.reason}."
    )
    return f"{said} {OPEN_AND_SAVE}" if first.reason == UNSTORED else said
