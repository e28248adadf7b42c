"""Where the lines stand: below titles, between totals, under pallet headings."""

from corpus.case import manifest
from corpus.workbooks import GOODS, GOODS_TABLE, merged

HEADERS = (
    manifest(
        "header_below_titles_and_address",
        """
        Orrin Salvage Depot,,
        12 Harbour Road,,
        Tel. 555 0142,,

        Load 4471,,
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        """,
        table={"description": ["Blue mug", "Tin kettle"], "quantity": [2, 3], "tag_each": [950, 2400], "row": [7, 8]},
    ),
    manifest(
        "two_line_header",
        """
        Item,,Unit,Ext.
        Description,Qty,Retail,Retail
        Blue mug,2,9.50,19.00
        Tin kettle,3,24.00,72.00
        """,
        table={"description": ["Blue mug", "Tin kettle"], "quantity": [2, 3], "tag_each": [950, 2400]},
    ),
    manifest("header_in_three_lines", """
        Load 12,,,,,
        ,,,RETAIL,RETAIL,
        ITEM,,QTY,UNIT,EXT,COND
        NO.,DESCRIPTION,(EA),($),($),
        ,,,,,
        a1,Blue mug,2,9.50,19.00,New
        a2,Tin kettle,3,24.00,72.00,Used
        a3,Floor mat,1,7.00,7.00,New
        """, table={"description": ["Blue mug", "Tin kettle", "Floor mat"], "sku": ["a1", "a2", "a3"],
                    "quantity": [2, 3, 1], "tag_each": [950, 2400, 700]}),
    manifest(
        "merged_header_over_two_columns",
        merged(
            [["Goods", None, "Retail", None], ["Description", "Qty", "Unit", "Extended"], ["Blue mug", 2, 9.5, 19.0]],
            "A1:B1",
            "C1:D1",
        ),
        "m.xlsx",
        table={"description": ["Blue mug"], "quantity": [2], "tag_each": [950]},
    ),
    manifest(
        "merged_category_down_its_rows",
        merged(
            [
                ["Category", "Description", "Qty", "Unit Retail"],
                ["Kitchen", "Blue mug", 2, 9.5],
                [None, "Tin kettle", 3, 24],
                ["Garden", "Watering can", 1, 15],
            ],
            "A2:A3",
        ),
        "m.xlsx",
        table={"category": ["Kitchen", "Kitchen", "Garden"], "tag_each": [950, 2400, 1500]},
    ),
    manifest(
        "merged_title",
        merged([["Load 4471", None, None], *GOODS], "A1:C1"),
        "m.xlsx",
        table=GOODS_TABLE | {"row": [3, 4, 5]},
    ),
    manifest(
        "header_colons_capitals_line_breaks",
        [["ITEM\nDESCRIPTION:", "QTY :", "UNIT\r\nRETAIL:"], *GOODS[1:]],
        table=GOODS_TABLE,
    ),
    manifest(
        "repeated_header_rows",
        [*GOODS[:2], GOODS[0], GOODS[2], [str(name).upper() for name in GOODS[0]], GOODS[3]],
        table=GOODS_TABLE | {"row": [2, 4, 6]},
    ),
    manifest("blank_rows_and_columns", [
        ["", "Description", "", "Qty", "Unit Retail", ""], [""] * 6, ["", "Blue mug", "", 2, 9.5, ""], [""] * 6,
        ["", "Tin kettle", "", 3, 24, ""], ["", "Floor mat", "", 1, 7, ""], [""] * 6,
    ], table=GOODS_TABLE | {"row": [3, 5, 6]}),
)  # fmt: skip

PARTS = (
    manifest(
        "totals_and_sub_totals",
        """
        Description,Qty,Unit Retail,Ext. Retail
        Blue mug,2,9.50,19.00
        Tin kettle,3,24.00,72.00
        Sub-total,5,,91.00
        Floor mat,1,7.00,7.00
        Subtotal,1,,7.00
        GRAND TOTAL,6,,98.00
        """,
        table=GOODS_TABLE | {"row": [2, 3, 5]},
        stated=((5, 9100), (1, 700), (6, 9800)),
    ),
    manifest(
        "total_that_disagrees",
        """
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        Total,9,91.00
        """,
        table={"quantity": [2, 3]},
        stated=((9, 9100),),
        says=("does not agree",),
    ),
    manifest(
        "heading_total_that_disagrees",
        """
        Total units: 240,,
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        """,
        table={"quantity": [2, 3]},
        says=("240",),
    ),
    manifest(
        "pallet_headings",
        """
        Description,Qty,Unit Retail
        PALLET 1 OF 2 - 5 units,,
        Blue mug,2,9.50
        Tin kettle,3,24.00
        PALLET 2 OF 2 - 1 unit,,
        Floor mat,1,7.00
        """,
        table=GOODS_TABLE | {"row": [3, 4, 6], "pallet": ["PALLET 1 OF 2"] * 2 + ["PALLET 2 OF 2"]},
    ),
    manifest(
        "pallet_headings_that_disagree",
        """
        Description,Qty,Unit Retail
        PALLET 3 OF 5 - 182 units,,
        Blue mug,100,9.50
        Tin kettle,80,24.00
        """,
        table={"quantity": [100, 80], "pallet": ["PALLET 3 OF 5"] * 2},
        says=("182",),
    ),
    manifest(
        "pallets_with_a_header_each",
        """
        Pallet 1,,
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00

        Pallet 2,,
        Description,Qty,Unit Retail
        Floor mat,1,7.00
        """,
        table=GOODS_TABLE | {"pallet": ["Pallet 1", "Pallet 1", "Pallet 2"]},
    ),
    manifest(
        "two_lots_in_one_file",
        """
        Lot 101,,
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00

        Lot 102,,
        Description,Qty,Unit Retail
        Floor mat,1,7.00
        """,
        asks=("lot_is",),
        answers={"lot_is": "all"},
        table=GOODS_TABLE,
    ),
    manifest(
        "two_lots_in_a_column",
        """
        Lot,Description,Qty,Unit Retail
        101,Blue mug,2,9.50
        101,Tin kettle,3,24.00
        102,Floor mat,1,7.00
        """,
        asks=("lot_is",),
        answers={"lot_is": "102"},
        problems={2: "*", 3: "*"},
        aside=(2, 3),  # rows of the other lot are named, not dropped
        table={"description": ["Floor mat"], "quantity": [1], "tag_each": [700]},
    ),
    manifest(
        "notes_at_the_end",
        """
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        Floor mat,1,7.00

        All sales are final. Goods are sold as they stand.,,
        """,
        table=GOODS_TABLE,
    ),
    manifest(
        "list_covers_a_part_of_the_load",
        """
        Note: this list covers about 80% of the load,,
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        Floor mat,1,7.00
        """,
        table=GOODS_TABLE,
        says=("80%|80 %",),
    ),
)

SHAPE = HEADERS + PARTS
