"""What a column means: which price is the tag and for how many, what a grade stands for, what one row is."""

from corpus.case import manifest

_SIZES = "Style,Description,S,M,L,XL,Unit Retail"

TAGS = (
    manifest("extended_tags", """
        Description,Qty,Extended Retail
        Blue mug,2,19.00
        Tin kettle,3,72.00
        """, table={"tag_each": [950, 2400]}),
    manifest("unit_and_extended_tags", """
        Description,Qty,Unit Retail,Ext. Retail
        Blue mug,2,9.50,19.00
        Tin kettle,3,24.00,72.00
        Floor mat,2,7.00,20.00
        """, table={"tag_each": [950, 2400, 700]}, problems={4: "*"}),
    manifest("extended_tags_under_a_unit_header", """
        Description,SKU,Qty,Retail
        Blue mug,K-1,2,19.00
        Blue mug,K-1,5,47.50
        Blue mug,K-1,10,95.00
        Tin kettle,K-2,3,72.00
        Tin kettle,K-2,1,24.00
        Tin kettle,K-2,4,96.00
        Floor mat,K-3,1,7.00
        Floor mat,K-3,6,42.00
        """, may_ask=("tag_is",), table={"tag_each": [950, 950, 950, 2400, 2400, 2400, 700, 700]}),
    manifest("total_shows_that_tags_are_extended", """
        Description,Qty,Retail
        Blue mug,2,19.00
        Tin kettle,3,72.00
        Floor mat,4,28.00
        Total,9,119.00
        """, may_ask=("tag_is",), table={"tag_each": [950, 2400, 700]}),
    manifest("tag_cost_and_asking_price", """
        Description,Qty,Retail,Cost,Asking Price
        Blue mug,2,9.50,3.10,6.00
        Tin kettle,3,24.00,8.20,15.00
        """, may_ask=("tag_each",), table={"tag_each": [950, 2400]}),
    manifest("marked_down_tag", """
        Description,Qty,Ticket Price,Markdown Price
        Blue mug,2,9.50,6.10
        Tin kettle,3,24.00,18.20
        """, asks=("tag_each",), answers={"tag_each": "Markdown Price"}, table={"tag_each": [610, 1820]}),
    manifest("a_bare_price", """
        Description,Qty,Price
        Blue mug,2,9.50
        Tin kettle,3,24.00
        """, asks=("tag_each",), answers={"tag_each": "-"}, table={"tag_each": [None, None]}),
)  # fmt: skip

COUNTS = (
    manifest("counts_of_cases", """
        Description,Cases,Unit Retail
        Blue mug,2,9.50
        Tin kettle,3,24.00
        """, asks=("quantity_is",), answers={"quantity_is": "12"}, table={"quantity": [24, 36]}),
    manifest("counts_in_cases_by_their_unit", """
        Description,Qty,Unit Retail
        Blue mug,2 CS,9.50
        Tin kettle,3 CS,24.00
        """, asks=("quantity_is",), answers={"quantity_is": "units"}, table={"quantity": [2, 3]},
        problems={2: "quantity", 3: "quantity"}),
    manifest("cases_beside_their_pack_size", """
        Description,Cases,Units per Case,Unit Retail
        Blue mug,2,12,9.50
        Tin kettle,3,4,24.00
        """, may_ask=("quantity_is",), table={"quantity": [24, 12]}),
    manifest("cases_by_a_unit_beside", """
        Description,UOM,Qty,Unit Retail
        Blue mug,CS,4,9.50
        Tin kettle,CASE,2,24.00
        Floor mat,EA,3,7.00
        """, asks=("quantity_is",), answers={"quantity_is": "12"}, table={"quantity": [48, 24, 3]},
        problems={2: "quantity", 3: "quantity"}),
    manifest("a_few_packs_by_a_unit_beside", """
        Description,Qty,Unit,Unit Retail
        Blue mug,4,DZ,9.50
        Tin kettle,2,EA,24.00
        Floor mat,3,PR,7.00
        """, table={"quantity": [4, 2, 3]}, problems={2: "quantity"}, says=("may count packs",)),
    manifest("a_pack_size_beside_bare_counts", """
        Description,Qty,Pack,Unit Retail
        Blue mug,4,6,9.50
        Tin kettle,2,12,24.00
        Floor mat,3,1,7.00
        """, asks=("quantity_is",), answers={"quantity_is": "Pack"}, table={"quantity": [24, 24, 3]}),
    manifest("counts_that_are_multiples_of_the_pack", """
        Description,Qty,Pack,Unit Retail
        Blue mug,24,6,9.50
        Tin kettle,12,12,24.00
        Floor mat,8,4,7.00
        """, table={"quantity": [24, 12, 8]}),
    manifest("line_tags_show_that_counts_are_units", """
        Description,Qty,Case Pack,Unit Retail,Ext. Retail
        Blue mug,5,6,9.50,47.50
        Tin kettle,2,12,24.00,48.00
        Floor mat,3,4,7.00,21.00
        """, table={"quantity": [5, 2, 3], "tag_each": [950, 2400, 700]}),
    manifest("multi_packs_keep_their_stated_quantity", """
        Description,Qty,Unit Retail
        Blue mug 6-pack,2,30.00
        Batteries AA pack of 24,3,12.00
        """, table={"quantity": [2, 3]}),
    manifest("one_row_for_each_tagged_unit", [["Tag No", "Description", "Unit Retail"],
        *[[f"T{number:04d}", "Blue mug" if number % 2 else "Jug", 9.5] for number in range(40)]],
        units=40, table={"tag_each": [950] * 40, "quantity": [1] * 40}),
    manifest("duplicate_lines_stay", """
        Description,Qty,Unit Retail
        Blue mug,2,9.50
        Blue mug,2,9.50
        """, table={"quantity": [2, 2], "no": [1, 2]}),
    manifest("size_run_in_rows", """
        Style,Description,Size,Qty,Unit Retail
        P10,Polo shirt blue,S,2,20.00
        P10,Polo shirt blue,M,4,20.00
        P10,Polo shirt blue,L,4,20.00
        """, units=10, table={"quantity": [2, 4, 4]}),
    manifest("size_run_in_columns", f"""
        {_SIZES}
        P10,Polo shirt blue,2,4,4,1,20.00
        P11,Polo shirt red,1,,3,,22.00
        """, units=15),
    manifest("size_run_of_numbers", """
        Description,Size,2,4,6,8,10,Retail
        Dress red,run,1,2,2,1,0,49.00
        Skirt blue,run,0,1,1,1,1,29.00
        """, table={"description": ["Dress red", "Skirt blue"], "quantity": [6, 4], "tag_each": [4900, 2900]}),
    manifest("counts_by_place", """
        Description,Qty East,Qty West,Retail
        Blue mug,1,1,9.50
        Tin kettle,2,3,24.00
        Floor mat,0,1,7.00
        """, asks=("quantity",), answers={"quantity": "Qty East + Qty West"},
        table={"quantity": [2, 5, 1], "tag_each": [950, 2400, 700]}),
    manifest("a_count_that_is_the_sum_of_two", """
        Description,Good Qty,Bad Qty,Total,Retail
        Blue mug,1,1,2,9.50
        Tin kettle,2,2,4,24.00
        Floor mat,0,1,1,7.00
        """, table={"quantity": [2, 4, 1]}, says=("good qty",)),
    manifest("units_removed_and_left_are_no_sum_of_the_lot", """
        Description,Total,Qty Removed,Qty Remaining,Retail
        Blue mug,3,1,2,9.50
        Tin kettle,6,2,4,24.00
        Floor mat,2,1,1,7.00
        """, asks=("quantity",), answers={"quantity": "Qty Remaining"}, table={"quantity": [2, 4, 1]}),
    manifest("numbered_rows_are_no_sum", """
        No,Row,Description,Qty,Retail
        1,2,Blue mug,1,9.50
        2,3,Tin kettle,1,24.00
        3,4,Floor mat,1,7.00
        """, table={"quantity": [1, 1, 1]}),
    manifest("units_ordered_are_no_sum_of_what_came", """
        Description,Ordered,Shipped Qty,Short Qty,Retail
        Blue mug,3,2,1,9.50
        Tin kettle,6,4,2,24.00
        Floor mat,1,1,0,7.00
        """, asks=("quantity",), answers={"quantity": "Shipped Qty"}, table={"quantity": [2, 4, 1]}),
    manifest("headers_with_a_year_and_a_sum", """
        Description,Qty (total 6),Retail 2026
        Blue mug,2,9.50
        Tin kettle,3,24.00
        Floor mat,1,7.00
        """, table={"quantity": [2, 3, 1], "tag_each": [950, 2400, 700]}),
    manifest("offered_prices_beside_tags_of_unit_and_line", """
        Description,Qty,MSRP,% of MSRP,Your Price,Ext. MSRP,Ext. Price
        Blue mug,2,10.00,22%,2.20,20.00,4.40
        Tin kettle,5,20.00,22%,4.40,100.00,22.00
        Floor mat,1,7.00,22%,1.54,7.00,1.54
        """, table={"tag_each": [1000, 2000, 700]}, says=("'your price' (an asking price)",)),
    manifest("one_header_for_tags_of_unit_and_line", """
        Description,Qty,Retail,Retail
        Blue mug,2,9.50,19.00
        Tin kettle,3,24.00,72.00
        Floor mat,1,7.00,7.00
        """, table={"tag_each": [950, 2400, 700]}),
    manifest("assorted_sizes_in_one_line", """
        Item | Qty
        Asst knit tops 24M-5T | 96
        Asst knit bottoms 24M-5T | 48
        Blue mug | 12
        """, table={"quantity": [96, 48, 12], "assorted": [1, 1, 0]}),
)  # fmt: skip

CONDITIONS = (
    manifest("conditions_in_any_wording", """
        Description,Qty,Unit Retail,Condition
        Mug,1,5,Brand New
        Jug,1,5,"NEW, factory sealed"
        Mat,1,5,Open Box
        Lamp,1,5,Customer returns - untested
        Desk,1,5,For parts or not working
        Pan,1,5,Salvage
        Fan,1,5,Tested working
        Pot,1,5,
        """, table={
            "condition": ["sealed", "sealed", "opened", "untested", "salvage", "salvage", "works", None],
            "condition_said": ["Brand New", "NEW, factory sealed", "Open Box", "Customer returns - untested",
                               "For parts or not working", "Salvage", "Tested working", ""]}),
    manifest("unknown_condition_wording", """
        Description,Qty,Unit Retail,Condition
        Mug,1,5,New
        Jug,1,5,zzz-7
        Mat,1,5,New
        """, table={"condition": ["sealed", None, "sealed"], "condition_said": ["New", "zzz-7", "New"]},
        problems={3: "condition"}),
    manifest("grades_of_the_source", """
        Description,Qty,Unit Retail,Grade
        Mug,1,5,A
        Jug,1,5,B
        Mat,1,5,A
        """, asks=("condition:A", "condition:B"), answers={"condition:A": "opened", "condition:B": "worn"},
        table={"condition": ["opened", "worn", "opened"], "condition_said": ["A", "B", "A"]}),
    manifest("headers_that_say_nothing", """
        C1,C2,C3
        7,8,9
        5,6,4
        """, asks=("description",)),
    manifest("state_of_the_goods", """
        Description,Qty,Unit Retail,State
        Mug,1,5,New
        Jug,1,5,Open box
        """, may_ask=("condition",), table={"condition": ["sealed", "opened"]}),
    manifest("state_of_the_union", """
        Description,Qty,Unit Retail,Warehouse State
        Mug,1,5,NE
        Jug,1,5,TX
        """, table={"condition": [None, None]}),
    manifest("words_of_another_language", """
        Artikelbezeichnung;Menge;UVP
        Becher blau;2;9,50
        Kanne;3;24,00
        """, currency="EUR", may_ask=("description", "quantity", "tag_each"),
        table={"description": ["Becher blau", "Kanne"], "quantity": [2, 3], "tag_each": [950, 2400]}),
)  # fmt: skip

MEANINGS = TAGS + COUNTS + CONDITIONS
