"""Money of a whole file: its amounts, and whether its currency signs agree with one another and with the shop."""

from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.cells.currencies import contradict, fits, header_marks, marks_said
from models.intake.cells.reading import AS_WRITTEN
from models.intake.cells.tax_words import tax_inside
from models.intake.grid import Cell, is_blank, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.problems import Caution
from models.values.questions import DECIMALS_ARE, Choice, Question

_SHOWN = 3


def money_columns(
    table: Table, names: Sequence[str], currency: str, findings: Findings, given: Mapping[str, str]
) -> tuple[dict[str, Amounts], tuple[Caution, ...]]:
    """Amounts [minor units] of the named columns the file has, with every doubt told.

    Parameters
    ----------
    table : Table
        The file.
    names : sequence of str
        Canonical columns of money.
    currency : str
        The shop's, ISO 4217.
    findings : Findings
        Told of cells that are no amount or are marked as another currency; asks where nothing tells what "12.345" is.
    given : mapping
        The seller's mapping; `decimals_are` answers that question.

    Returns
    -------
    tuple
        {canonical: Amounts}, and cautions: a tax stands inside, decimals are finer than the
        currency, signs are mixed or contradict it.
    """
    columns = table.having(names)
    answer = given.get(DECIMALS_ARE)
    amounts = read_amounts(columns, currency, table.comma_likely, None if answer is None else answer == "comma")
    if answer is None:
        findings.ask(*_open_questions(table, amounts))
    for name, read in amounts.items():
        findings.name_doubts(name, columns[name], read.readings)
    in_headers = [mark for name in columns for mark in header_marks(table.headers[name])]
    told = [_taxed(table.headers[name]) for name, read in amounts.items() if _says_tax(table, name, read)]
    told += [_finer(table.headers[name], currency) for name, read in amounts.items() if read.finer]
    told += [
        _unreadable(table.headers[name], read, columns[name])
        for name, read in amounts.items()
        if _is_lost(read, columns[name])
    ]
    taxed = tuple(told)
    in_formats = [mark for name, mark in table.formats if name in columns]
    counted = sum((Counter(read.marks) for read in amounts.values()), Counter([*in_headers, *in_formats]))
    del counted[""]
    if not counted:
        counted.update(_said_outside(table))
    if contradict(counted):
        _name_strangers(table, amounts, _main_mark(counted, currency), findings)
        return amounts, (*taxed, _mixed(list(counted), currency))
    strangers = [mark for mark in counted if not fits(mark, currency)]
    if len(strangers) < len(counted):  # "$5" beside "$6 CAD" where the shop's are another country's dollars
        return amounts, ((*taxed, _mixed(list(counted), currency)) if strangers else taxed)
    return amounts, ((*taxed, _another(strangers, currency)) if strangers else taxed)


def _said_outside(table: Table) -> list[str]:
    """What titles and notes say of currencies, where neither cells nor headers do."""
    outline = table.outline
    words = outline.texts(outline.titles, outline.sorted_rows.notes) if outline else []
    return [mark for text in words for mark in marks_said(text)]


def _open_questions(table: Table, amounts: Mapping[str, Amounts]) -> tuple[Question, ...]:
    """One question for the whole file, with cells of the first column that is open."""
    for name, read in amounts.items():
        if read.unsettled:
            cells = tuple(dict.fromkeys(read.unsettled))[:_SHOWN]
            words = f"Is '{cells[0]}' in '{table.headers[name]}' {_small(cells[0])}, or {_large(cells[0])}?"
            sign, other = ("comma", "point") if "," in cells[0] else ("point", "comma")
            choices = (
                Choice(sign, f"{_small(cells[0])}: the {sign} stands before the decimals"),
                Choice(other, f"{_large(cells[0])}: the {sign} stands between the thousands"),
            )
            return (Question(DECIMALS_ARE, words, choices, cells),)
    return ()


def _small(core: str) -> str:
    return f"a little over {int(float(core.replace(',', '.'))):,}"


def _large(core: str) -> str:
    return f"{int(core.replace('.', '').replace(',', '')):,}"


def _finer(header: str, currency: str) -> Caution:
    what = f"The amounts in '{header}' have more decimals than {currency}: they are read in full and shown rounded."
    return Caution(what, "See that they are prices and that no sign stands between their thousands.")


def _is_lost(read: Amounts, cells: Sequence[Cell]) -> bool:
    """Most cells that say anything are no amount."""
    told = int(np.isfinite(read.minor).sum())
    if 2 * told > len(cells):
        return False
    return 2 * told < sum(not is_blank(written_cell(cell)) for cell in cells)


def _unreadable(header: str, read: Amounts, cells: Sequence[Cell]) -> Caution:
    lost = [written_cell(cells[at]) for at in np.flatnonzero(np.isnan(read.minor)).tolist()]
    shown = "', '".join([text for text in dict.fromkeys(lost) if not is_blank(text)][:_SHOWN])
    what = f"Most amounts in '{header}' could not be read, such as '{shown}'."
    return Caution(what, "Give them as plain numbers, with no words beside them.")


def _says_tax(table: Table, name: str, read: Amounts) -> bool:
    in_header = name != "sold_price" and tax_inside(table.headers[name])  # `price_alone` takes it out of what sold
    return read.taxed or in_header


def _taxed(header: str) -> Caution:
    what = f"The amounts in '{header}' have a sales tax or VAT inside; they were kept as written."
    return Caution(
        what, "Compare them with prices that have it inside too; your local rules say what you may keep of it."
    )


def _main_mark(counted: Mapping[str, int], currency: str) -> str:
    return max(counted, key=lambda mark: (fits(mark, currency), counted[mark], mark))


def _name_strangers(table: Table, amounts: Mapping[str, Amounts], main: str, findings: Findings) -> None:
    for name, read in amounts.items():
        strange = {mark for mark in set(read.marks) if mark and contradict([mark, main])}
        mask = np.array([mark in strange for mark in read.marks], dtype=bool)
        findings.name_where(
            mask, name, table.columns[name], "in another currency than the rest; no amount is converted", AS_WRITTEN
        )


def _shown(marks: Sequence[str]) -> str:
    return ", ".join(sorted(mark.upper() for mark in marks))


def _mixed(marks: Sequence[str], currency: str) -> Caution:
    what = (
        f"The file mixes currency signs ({_shown(marks)}), the currency in force is {currency}; none was converted. "
        "Each row in another one is named, with what was done with it."
    )
    return Caution(what, "Put all amounts into one currency before you rely on the figures.")


def _another(marks: Sequence[str], currency: str) -> Caution:
    what = f"The file marks its amounts {_shown(marks)}, but the currency in force is {currency}; none was converted."
    return Caution(what, f"Set the currency to the file's, or give the file's amounts in {currency}.")
