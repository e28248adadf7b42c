"""Every form a table comes in: delimiters, encodings, workbooks, compressed files; and what is no table."""

from unit.intake_files import delimited, ods, xls

from corpus.case import manifest, plain
from corpus.workbooks import GOODS, GOODS_TABLE, book, gzipped, zipped
from models.values.errors import Unreadable

_ACCENTS = [["Description", "Qty", "Unit Retail"], ["Café-Krug blau", 2, "9.50"], ["Große Matte", 3, "24.00"]]
_ACCENTS_TABLE = {
    "description": ["Café-Krug blau", "Große Matte"],
    "quantity": [2, 3],
    "tag_each": [950, 2400],
}

READERS = (
    manifest("comma_utf8", delimited(GOODS), table=GOODS_TABLE),
    manifest("comma_utf8_bom", delimited(_ACCENTS, encoding="utf-8-sig"), table=_ACCENTS_TABLE),
    manifest("tab_utf16", delimited(_ACCENTS, "\t", "utf-16"), "m.tsv", table=_ACCENTS_TABLE),
    manifest("tab_utf16_big_endian", b"\xfe\xff" + delimited(_ACCENTS, "\t", "utf-16-be"), table=_ACCENTS_TABLE),
    manifest("semicolon_windows_1252", delimited(_ACCENTS, ";", "cp1252", "\n"), table=_ACCENTS_TABLE),
    manifest("pipe_utf8", delimited(_ACCENTS, "|", end="\n"), "m.txt", table=_ACCENTS_TABLE),
    manifest("old_mac_line_ends", delimited(GOODS, end="\r"), table=GOODS_TABLE),
    manifest("separator_line", b"sep=;\r\n" + delimited(GOODS, ";"), table=GOODS_TABLE),
    manifest("xlsx", book({"Sheet": GOODS}), "m.xlsx", table=GOODS_TABLE),
    manifest("xlsx_called_csv", book({"Sheet": GOODS}), "m.csv", table=GOODS_TABLE),
    manifest("xlsm", book({"Sheet": GOODS}), "m.xlsm", table=GOODS_TABLE),
    manifest("xls", xls(GOODS), "m.xls", table=GOODS_TABLE),
    manifest("ods", ods(GOODS), "m.ods", table=GOODS_TABLE),
    manifest("gzip_of_csv", gzipped(delimited(GOODS)), "m.csv.gz", table=GOODS_TABLE),
    manifest("zip_of_csv", zipped({"lot/m.csv": delimited(GOODS)}), "m.zip", table=GOODS_TABLE),
    manifest("zip_of_xlsx", zipped({"m.xlsx": book({"Sheet": GOODS})}), "m.zip", table=GOODS_TABLE),
    manifest(
        "zip_of_two",
        zipped({"a.csv": delimited(GOODS), "b.csv": delimited(GOODS)}),
        "m.zip",
        rejected=Unreadable,
    ),
    manifest("gzip_cut_short", gzipped(delimited(GOODS))[:-20], "m.csv.gz", rejected=Unreadable),
    manifest("empty", b"", rejected=Unreadable),
    manifest("header_alone", "Description,Qty,Unit Retail\n", rejected=Unreadable),
    manifest("a_picture", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\x08\6\0\0\0", "m.png", rejected=Unreadable),
    manifest(
        "nul_bytes",
        delimited(GOODS).replace(b"Blue mug", b"Blue\0 mug").replace(b"24", b"2\x004"),
        table=GOODS_TABLE,
        problems={2: "description", 3: "tag_each"},
    ),
    manifest(
        "truncated_last_line",
        plain("""
            Description,Qty,Unit Retail,SKU
            Blue mug,2,9.50,K-1
            Tin kettle,3,24.00,K-2
            "Floor m"""),
        table={"sku": ["K-1", "K-2", ""], "quantity": [2, 3, 1], "tag_each": [950, 2400, None]},
        problems={4: "*"},
    ),
    manifest("whole_lines_in_quotes", """
        "Description,Qty,Unit Retail"
        "Blue mug,2,9.50"
        "Tin kettle,3,24.00"
        """, table={"description": ["Blue mug", "Tin kettle"], "quantity": [2, 3], "tag_each": [950, 2400]}),
    manifest("whole_lines_in_quotes_with_quotes_inside", """
        "Description;Qty;Unit Retail"
        "\"\"Mug; blue\"\";2;9.50"
        "Tin kettle;3;24.00"
        """, table={"description": ["Mug; blue", "Tin kettle"], "quantity": [2, 3], "tag_each": [950, 2400]}),
    manifest("one_quoted_column_of_goods", """
        "Item"
        "Mug, blue, large"
        "Kettle, tin"
        """, table={"description": ["Mug, blue, large", "Kettle, tin"]}),
    manifest("json", b'{"items": [{"Description": "Blue mug", "Qty": 2}]}', "m.json", rejected=Unreadable),
    manifest("columns_kept_apart_by_spaces", """
        Load 7 of returns from the depot
        Description       Qty   Unit Retail

        Blue mug            2          9.50
        Kettle, tin        12         24.00
        Floor mat, 2 m      1          7.00
        """, table={"description": ["Blue mug", "Kettle, tin", "Floor mat, 2 m"], "quantity": [2, 12, 1],
                    "tag_each": [950, 2400, 700]}),
)  # fmt: skip
