"""Which sheet holds the lines, what is hidden in it, and what only its title or its name says."""

from corpus.case import manifest
from corpus.workbooks import GOODS, GOODS_TABLE, book, with_hidden_rows, with_hidden_sheet

SHEETS = (
    manifest("second_sheet", book({"Cover": [["Load 4471"], ["Thank you"]], "Lines": GOODS}), "m.xlsx",
             table=GOODS_TABLE),
    manifest("one_sheet_was_taken_out", book({"Manifest": GOODS, "Removed": [*GOODS[:1], ["Desk lamp", 1, 30]]}),
             "m.xlsx", table=GOODS_TABLE, says=("removed",), may_ask=("sheet_is",)),
    manifest("instructions_on_a_hidden_first_sheet", with_hidden_sheet(
        {"Instructions": [["How to use this file"], ["Description", "Qty", "Unit Retail"], ["EXAMPLE ITEM", 99, 1]],
         "Manifest": GOODS}, "Instructions"), "m.xlsx", table=GOODS_TABLE, unsaid=("EXAMPLE ITEM",)),
    manifest("two_sheets_of_lines", book({"Load A": GOODS, "Load B": [GOODS[0], ["Desk lamp", 1, 30]]}), "m.xlsx",
             asks=("sheet_is",), answers={"sheet_is": "Load B"}, table={"description": ["Desk lamp"]}),
    manifest("rows_hidden_by_a_filter", with_hidden_rows(GOODS, 3), "m.xlsx", table={"quantity": [2, 3, 1]},
             problems={3: "*"}, says=("hidden|filter",)),
    manifest("formulas_without_a_cached_value", book({"Sheet": [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 2, "=1.5*4"], ["Tin kettle", 3, 24]]}), "m.xlsx",
        table={"tag_each": [None, 2400]}, problems={2: "*"}, says=("formula",)),
    manifest("condition_only_in_the_title_row", "Customer returns - untested,,\n" + "".join(
        f"{name},{units},{tag}\n" for name, units, tag in GOODS), table=GOODS_TABLE | {"condition": ["untested"] * 3}),
    manifest("condition_only_in_the_file_name", GOODS, "Load 4471 salvage.csv",
             table=GOODS_TABLE | {"condition": ["salvage"] * 3}),
)  # fmt: skip
