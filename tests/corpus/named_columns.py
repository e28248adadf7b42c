"""Columns of manifests under the headers that their senders give them, and counts that only other columns tell."""

from typing import Any

from corpus.case import Case, manifest

_GOODS = (("Kettle red", 2, "9.50"), ("Lamp blue", 3, "24.00"), ("Mug white", 1, "3.00"))


def _beside(name: str, header: str, cells: list[str], **expected: Any) -> Case:
    rows = [["Item Description", "Qty", "Unit Retail", header]]
    rows += [[goods, str(units), tag, cell] for (goods, units, tag), cell in zip(_GOODS, cells, strict=True)]
    return manifest(name, rows, **expected)


NAMED_COLUMNS = (
    manifest("a_category_in_two_columns", """
        Item,Qty,MSRP,Department,Sub-Department
        Blocks,2,9.50,Toys,Building sets
        Cards,3,24.00,Toys,Toys
        Drill,1,30.00,Tools,
        Saw,1,40.00,Tools,Tools > Hand tools
        """, table={"category": ["Toys > Building sets", "Toys", "Tools", "Tools > Hand tools"]}),
    manifest("a_numbered_category", """
        Item,Qty,MSRP,Category 1,Category 2
        Blocks,2,9.50,Toys,Building sets
        Drill,1,30.00,Tools,Power tools
        """, table={"category": ["Toys > Building sets", "Tools > Power tools"]}),
    manifest("a_subcategory_alone", """
        Item,Qty,MSRP,Subcategory
        Blocks,2,9.50,Building sets
        Drill,1,30.00,Power tools
        """, table={"category": ["Building sets", "Power tools"]}),
    *(
        _beside(f"a_{column}_under_{header.casefold().replace(' ', '_')}", header, cells, table={column: cells})
        for column, header, cells in (
            ("brand", "Vendor", ["Zorka", "Brell", "Zorka"]),
            ("brand", "Marchio", ["Zorka", "Brell", "Zorka"]),
            ("category", "Dept. Name", ["Kitchen", "Home", "Kitchen"]),
            ("category", "Division", ["Kitchen", "Home", "Kitchen"]),
            ("sku", "Item ID", ["K-1041", "K-1077", "K-1090"]),
            ("sku", "MPN", ["K-1041", "K-1077", "K-1090"]),
            ("sku", "Item", ["K-1041", "K-1077", "K-1090"]),
            ("gtin", "Product Code (UPC)", ["240100000139", "240100079326", ""]),
        )
    ),
    _beside("items_that_count_the_rows_are_no_codes", "Item", ["1", "2", "3"], table={"sku": ["", "", ""]}),
    _beside("padded_numbers_of_rows_are_no_codes", "Item", ["0001", "0002", "0003"], table={"sku": ["", "", ""]}),
    _beside("codes_one_after_another", "Item", ["031002", "031003", "031004"], table={
        "sku": ["031002", "031003", "031004"]}),
    _beside("items_that_are_names_are_no_codes", "Item", ["Kettle", "Lamp", "Mug"], table={"sku": ["", "", ""]}),
    *(
        _beside(
            f"conditions_under_{header.casefold().replace(' ', '_')}", header, ["New", "Open box", "For parts"],
            table={"condition": ["sealed", "opened", "salvage"]}, says=says)
        for header, says in (
            ("Item Status", ()),
            ("Return Status", ()),
            ("Staat", ()),
            ("Zork", ("No header names the condition: it was taken from the words under 'Zork'",)),
            ("Product type", ("taken from the words under 'Product type'",)),
            ("Note", ("taken from the words under 'Note'",)),
        )
    ),
    _beside(
        "few_words_of_condition_are_named", "Remarks", ["New", "red lid", "from the window"],
        table={"condition": [None, None, None]}, says=("'Remarks' (New, red lid, from the window)",)),
    _beside(
        "grades_are_no_less_the_condition_for_notes", "Notes", ["New", "Open box", ""],
        table={"condition": ["sealed", "opened", None]}),
    manifest("a_named_condition_goes_before_words_elsewhere", """
        Item,Qty,MSRP,Condition,Packaging
        Blocks,2,9.50,Used,New
        Drill,1,30.00,Untested,Open box
        """, table={"condition": ["worn", "untested"]}),
    *(
        manifest(f"units_under_{header.casefold().replace(' ', '_')}", f"""
            Description,{header},MSRP
            Blocks,2,9.50
            Drill,14,30.00
            """, table={"quantity": [2, 14], "tag_each": [950, 3000]})
        for header in ("No. of Items", "Number of Items", "Item Count", "Anz.", "Nombre")
    ),
    manifest("a_price_to_the_public", """
        Descrizione;Quantità;Prezzo unitario al pubblico
        Tazza;2;9,50
        Brocca;3;24,00
        """, table={"tag_each": [950, 2400]}, unsaid=("was taken for",)),
    manifest("counts_before_a_sale_are_no_prices", """
        Item,Original Qty,Qty,Unit Retail
        Mug,6,4,9.50
        Jug,5,3,24.00
        """, table={"quantity": [4, 3], "tag_each": [950, 2400]}),
    manifest("two_tags_tell_a_count_that_is_blank", """
        Item,Qty,Unit Retail,Ext. Retail
        Mug,2,9.50,19.00
        Jug,,24.00,72.00
        Pan,,4.50,14.00
        """, table={"quantity": [2, 3, 1]}, problems={3: "quantity", 4: "*"}, says=("counted as 3", "counted as 1")),
)  # fmt: skip
