"""Which sheet of a workbook holds the lines?  The one whose header speaks of goods; several are asked about.

A sheet of what was taken out is told by its name.  Hidden sheets are read only where nothing seen is a table.
"""

from collections.abc import Mapping, Sequence

from models.intake.cells.wordings import plain_words
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import plain_text, written_cell
from models.intake.shape.answered import names_meant, not_clear
from models.intake.shape.sheet import Sheet
from models.values.errors import NeedsColumns
from models.values.problems import Caution
from models.values.questions import ALL_LOTS, SHEET_IS, Choice, Question

_MOST_NAMED = 5
_TABLE = 3.0  # points of a header that names a table of its own; common practice, no source


def choose_sheets(
    sheets: Sequence[Sheet], vocabulary: Vocabulary, mapping: Mapping[str, str]
) -> tuple[list[Sheet], tuple[Caution, ...]]:
    """The sheet to read, or all that hold lines where the seller says so, and what is to be said of the others.

    Parameters
    ----------
    sheets : sequence of Sheet
        At least one, in the workbook's order.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        Its `sheet_is` names a sheet, or all of them.

    Raises
    ------
    NeedsColumns
        If several sheets of a manifest hold lines and none is named; of any file if a name given fits none or several.

    Examples
    --------
    >>> from models.intake.grid import Grid
    >>> from models.intake.shape.header import Header
    >>> header, rows = Header(0, 1, True, ("Item",)), [["Item"], ["Mug"]]
    >>> sheets = [Sheet(Grid(name, rows, 1), header) for name in ("Lot", "Removed")]
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> chosen, cautions = choose_sheets(sheets, MANIFEST, {})
    >>> chosen[0].grid.name, cautions[0].what.partition(" (")[0]
    ('Lot', "The sheet 'Removed' lists goods that, by its name, are not in the lot")
    """
    wanted = mapping.get(SHEET_IS, "").strip()
    meant = names_meant(wanted, [sheet.grid.name for sheet in sheets]) if wanted else []
    named = [sheet for sheet in sheets if len(meant) == 1 and sheet.grid.name == meant[0]]
    ranked = named or _with_lines(sheets, vocabulary)
    unclear = not_clear(wanted, meant, "sheets") if wanted and not named and wanted.lower() != ALL_LOTS else ""
    if wanted.lower() == ALL_LOTS and not named:
        chosen = ranked
    elif vocabulary.kind != "manifest" and not unclear and _alike(ranked):
        chosen = ranked  # a sheet a month
    elif len(ranked) > 1 and (vocabulary.kind == "manifest" or unclear or _several_tables(ranked)):
        raise _which(ranked, unclear, vocabulary.kind)
    else:
        best = max(ranked, key=lambda sheet: (sheet.header.points, len(sheet.grid.rows)))
        chosen = [best] if named or vocabulary.kind == "manifest" else _of_one_header(sheets, best)
    others = [sheet for sheet in sheets if sheet not in chosen]
    told = (*_hidden(chosen), *_out(chosen, others, vocabulary), *_unread(chosen, others, vocabulary))
    return chosen, (*_answer_unused(unclear, chosen), *told)


def _alike(sheets: Sequence[Sheet]) -> bool:
    """Sheets under one and the same header."""
    headers = {tuple(plain_words(name) for name in sheet.header.names if name != "") for sheet in sheets}
    return len(sheets) > 1 and len(headers) == 1


def _of_one_header(sheets: Sequence[Sheet], best: Sheet) -> list[Sheet]:
    """The best sheet of a history and those like it: under headers that no word gave away, too."""
    return [
        sheet
        for sheet in sheets
        if sheet is best or (not sheet.taken_out and not sheet.grid.hidden and _alike([sheet, best]))
    ]


def _several_tables(sheets: Sequence[Sheet]) -> bool:
    """More than one of them is surely a table of its own, not a summary of another."""
    return sum(sheet.header.points >= _TABLE for sheet in sheets) > 1


def _answer_unused(unclear: str, chosen: Sequence[Sheet]) -> tuple[Caution, ...]:
    """A text file has no sheets, and answers may be given for several files at once."""
    if not unclear or not chosen[0].grid.name:
        return ()
    what = f"{unclear}Only '{chosen[0].grid.name}' holds lines: it was read."
    return (Caution(what, "Check that this sheet is the lot."),)


def _with_lines(sheets: Sequence[Sheet], vocabulary: Vocabulary) -> list[Sheet]:
    """Those that hold lines, seen ones first; where there are none, all that are left to look at."""
    seen = [sheet for sheet in sheets if not sheet.grid.hidden]
    for group in ([sheet for sheet in seen if not sheet.taken_out], [sheet for sheet in sheets if sheet.grid.hidden]):
        lines = [sheet for sheet in group if sheet.names_goods(vocabulary) is not None]
        if lines:
            return lines
    return [max(seen or sheets, key=lambda sheet: (sheet.header.points, len(sheet.grid.rows)))]


def _which(ranked: Sequence[Sheet], unclear: str, kind: str) -> NeedsColumns:
    listed = ", ".join(f"'{sheet.grid.name}' ({_rows(sheet)})" for sheet in ranked)
    choices = (
        *(Choice(sheet.grid.name, f"{sheet.grid.name}: {_rows(sheet)}") for sheet in ranked),
        Choice(ALL_LOTS, "all of them together, as one lot"),
    )
    if kind == "manifest":
        held, which, more = "lines", "is this lot", ", or 'all' for all together"
    else:
        held, which, more = "sales or listings", "is to be read", "; save the others as files of their own"
        choices = choices[:-1]  # sheets under other headers are not one table
    question = Question(SHEET_IS, f"{unclear}Several sheets hold {held}. Which one {which}?", choices)
    message = f"{unclear}Several sheets hold {held}: {listed}. Say which one {which}{more}."
    headers = [name for cell in ranked[0].header.names if (name := written_cell(cell).strip())]
    return NeedsColumns(message, (SHEET_IS,), headers, (question,))


def _rows(sheet: Sheet) -> str:
    count = sum(1 for row in sheet.below if any(cell != "" for cell in row))
    return f"{count:,} row{'' if count == 1 else 's'}"


def _hidden(chosen: Sequence[Sheet]) -> tuple[Caution, ...]:
    if not chosen[0].grid.hidden:
        return ()
    what = f"The lines were read from the hidden sheet '{chosen[0].grid.name}': no sheet that can be seen holds any."
    return (Caution(what, "Ask the seller whether this sheet is the lot."),)


def _out(chosen: Sequence[Sheet], others: Sequence[Sheet], vocabulary: Vocabulary) -> tuple[Caution, ...]:
    if not any(sheet.taken_out for sheet in others):
        return ()
    cautions = []
    goods = {name for sheet in chosen for name in _goods(sheet, sheet.names_goods(vocabulary))}
    for sheet in others:
        place = sheet.names_goods(vocabulary)
        if not sheet.taken_out or place is None:
            continue
        what = f"The sheet '{sheet.grid.name}' lists goods that, by its name, are not in the lot ({_rows(sheet)}): "
        both = _goods(sheet, place) & goods
        also = f" {len(both)} of these goods also stand among the lines that were read." if both else ""
        check = (
            "Check whether they have been taken off the lines too." if both else "Check that they are not in the lot."
        )
        cautions.append(Caution(f"{what}it was not read as lines.{also}", check))
    return tuple(cautions)


def _goods(sheet: Sheet, place: int | None) -> set[str]:
    if place is None:
        return set()
    names = (plain_text(row[place]).casefold() for row in sheet.below if place < len(row))
    return {name for name in names if name}


def _unread(chosen: Sequence[Sheet], others: Sequence[Sheet], vocabulary: Vocabulary) -> tuple[Caution, ...]:
    left = [sheet for sheet in others if not sheet.taken_out and not sheet.grid.hidden]
    left += [sheet for sheet in others if sheet.grid.hidden and sheet.names_goods(vocabulary) is not None]
    if not left:
        return ()
    named = ", ".join(f"'{sheet.grid.name}'{' (hidden)' if sheet.grid.hidden else ''}" for sheet in left[:_MOST_NAMED])
    read = ", ".join(f"'{sheet.grid.name}'" for sheet in chosen)
    were = f"the sheet {read} was" if len(chosen) == 1 else f"the sheets {read} were"
    what = f"Only {were} read; the file also has {named}."
    return (Caution(what, "If they hold lines too, put all lines into one sheet."),)
