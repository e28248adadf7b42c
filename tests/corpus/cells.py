"""What stands in one cell: counts, money, codes, weights, words."""

import datetime as dt

from corpus.case import manifest
from corpus.workbooks import book, day

_VALID = ["036000291452", "012345000065", "5901234123457"]  # of the GS1 examples and their like

NUMBERS = (
    manifest("counts_with_units_and_separators", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", "2 EA", 5], ["Tin kettle", "1,200", 5],
        ["Floor mat", "3 pcs", 5], ["Jug", "4.0", 5], ["Lamp", "x 5", 5],
    ], table={"quantity": [2, 1200, 3, 4, 5]}),
    manifest("counts_that_are_none", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", "", 5], ["Tin kettle", "-1", 5], ["Floor mat", 0, 5],
        ["Jug", "1.5", 5], ["Lamp", 2, 5], ["", 3, 5],
    ], table={"description": ["Blue mug", "Lamp"], "quantity": [1, 2]},
        problems={2: "quantity", 3: "quantity", 4: "quantity", 5: "quantity", 7: "description"}, aside=(3, 4, 5, 7)),
    manifest("money_with_dollar_sign", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "$1,234.50"], ["Jug", 1, "$ 5"], ["Mat", 1, "USD 7.25"],
        ["Lamp", 1, "1,234"],
    ], table={"tag_each": [123450, 500, 725, 123400]}),
    manifest("money_with_euro_after", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "1.234,50 EUR"], ["Jug", 1, "5,00 €"],
        ["Mat", 1, "1.234 EUR"],
    ], currency="EUR", table={"tag_each": [123450, 500, 123400]}),
    manifest("money_with_spaces", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "1 234,50"], ["Jug", 1, "1\u00a0234,50"],
        ["Mat", 1, "12\u202f345,00"], ["Lamp", 1, "7,25"],
    ], currency="EUR", table={"tag_each": [123450, 123450, 1234500, 725]}),
    manifest("money_in_brackets_and_dashes", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "(12.00)"], ["Jug", 1, "-"], ["Mat", 1, "8.00"],
        ["Lamp", 1, "-4.00"], ["Desk", 1, "n/a"],
    ], table={"tag_each": [None, None, 800, None, None]}, problems={2: "tag_each", 5: "tag_each"}),
    manifest("percent_signs_in_a_tag", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "50%"], ["Jug", 1, "8.00"], ["Mat", 1, "9.00"],
    ], table={"tag_each": [None, 800, 900]}, problems={2: "tag_each"}),
    manifest("mixed_currency_signs", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug", 1, "$5.00"], ["Jug", 1, "£8.00"], ["Mat", 1, "$9.00"],
    ], table={"description": ["Blue mug", "Jug", "Mat"]}, problems={3: "tag_each"}, says=("currency",)),
    manifest("tags_with_vat_inside", [
        ["Description", "Qty", "RRP inc. VAT"], ["Blue mug", 1, "12.00"], ["Jug", 1, "24.00"],
    ], currency="GBP", table={"tag_each": [1200, 2400]}, says=("vat|tax",)),
    manifest("weights_in_pounds_ounces_kilograms", [
        ["Description", "Qty", "Unit Retail", "Weight"], ["Blue mug", 1, 5, "2 lb"], ["Jug", 1, 5, "12 oz"],
        ["Mat", 1, 5, "1.5 kg"], ["Lamp", 1, 5, "500 g"], ["Desk", 1, 5, "1 lb 4 oz"], ["Pan", 1, 5, "3.5 lbs."],
    ], table={"weight_kg": [0.9072, 0.3402, 1.5, 0.5, 0.567, 1.5876]}),
    manifest("weight_unit_in_the_header", [
        ["Description", "Qty", "Unit Retail", "Weight (lbs)"], ["Blue mug", 1, 5, 2], ["Jug", 1, 5, 10],
    ], table={"weight_kg": [0.9072, 4.5359]}),
)  # fmt: skip

CODES = (
    manifest("gtin_in_scientific_notation", [
        ["Description", "Qty", "Unit Retail", "UPC"], ["Blue mug", 1, 5, "3.6E+10"], ["Jug", 1, 5, _VALID[0]],
        ["Mat", 1, 5, "5.90123E+12"], ["Lamp", 1, 5, "36000300000"],
    ], table={"gtin": ["", _VALID[0], "", ""]}, problems={2: "gtin", 4: "gtin", 5: "gtin"}),
    manifest("gtin_with_lost_zeros", book({"Sheet": [
        ["Description", "Qty", "Unit Retail", "UPC"], ["Blue mug", 1, 5, 36000291452], ["Jug", 1, 5, 12345000065],
        ["Mat", 1, 5, 5901234123457], ["Lamp", 1, 5, 36000291453],
    ]}), "m.xlsx", table={"gtin": [*_VALID, ""]}, problems={5: "gtin"}),
    manifest("upc_e", [
        ["Description", "Qty", "Unit Retail", "UPC"], ["Blue mug", 1, 5, "01234565"], ["Jug", 1, 5, "04252614"],
        ["Mat", 1, 5, "0 4252614"],
    ], table={"gtin": ["012345000065", "042100005264", "042100005264"]}),
    manifest("own_numbers_in_the_upc_column", [
        ["Description", "Qty", "Unit Retail", "UPC"], ["Blue mug", 1, 5, "K-1004"], ["Jug", 1, 5, "10231"],
        ["Mat", 1, 5, _VALID[2]],
    ], table={"gtin": ["", "", _VALID[2]]}, problems={2: "gtin", 3: "gtin"}),
    manifest("gtin_with_dashes_and_quotes", [
        ["Description", "Qty", "Unit Retail", "UPC"], ["Blue mug", 1, 5, "0-36000-29145-2"],
        ["Jug", 1, 5, "'036000291452"], ["Mat", 1, 5, '="036000291452"'],
    ], table={"gtin": [_VALID[0]] * 3}),
    manifest("sku_turned_into_a_number", [
        ["Description", "Qty", "Unit Retail", "SKU"], ["Blue mug", 1, 5, "1.00E+05"], ["Jug", 1, 5, "1E5"],
        ["Mat", 1, 5, "AB-12"], ["Lamp", 1, 5, "00412"],
    ], table={"description": ["Blue mug", "Jug", "Mat", "Lamp"]}, problems={2: "sku", 3: "sku"}),
    manifest("size_turned_into_a_date", book({"Sheet": [
        ["Description", "Qty", "Unit Retail", "SKU"], ["Blue sock", 1, 5, day("2026-10-05")], ["Jug", 1, 5, "AB-12"],
    ]}), "m.xlsx", table={"sku": ["", "AB-12"]}, problems={2: "sku"}),
    manifest("size_written_as_a_date", [
        ["Description", "Size", "Qty", "Unit Retail"], ["Sock, blue", "5-Oct", 1, 5], ["Sock, red", "8-10", 1, 5],
    ], table={"quantity": [1, 1], "tag_each": [500, 500]}, unsaid=(str(dt.date(2026, 10, 5)),)),
)  # fmt: skip

WORDS = (
    manifest("entities_and_emoji", [
        ["Description", "Qty", "Unit Retail"], ["Mug &amp; saucer 🎁", 1, 5], ["Jug &quot;Ada&quot; 👩\u200d🔧", 2, 5],
    ], table={"description": ["Mug & saucer 🎁", 'Jug "Ada" 👩\u200d🔧']}),
    manifest("right_to_left_text", [
        ["Description", "Qty", "Unit Retail"], ["كوب أزرق", 2, 5], ["ספל כחול 350 ml", 3, 7],
    ], table={"description": ["كوب أزرق", "ספל כחול 350 ml"], "quantity": [2, 3], "tag_each": [500, 700]}),
    manifest("multi_line_cells", [
        ["Description", "Qty", "Unit Retail"], ["Blue mug\nwith a lid\r\n(new)", 2, 5], ["Jug", 3, 7],
    ], table={"description": ["Blue mug with a lid (new)", "Jug"], "row": [2, 3], "quantity": [2, 3]}),
    manifest("multi_line_note_in_the_last_column", [
        ["Description", "SKU", "Qty", "Unit Retail", "Notes"], ["Blue mug", "K-1", 2, 5, "box torn\nlid missing"],
        ["Jug", "K-2", 3, 7, ""], ["Mat", "K-3", 4, 8, "as is\n\nno returns"], ["Lamp", "K-4", 1, 9, "fine"],
    ], table={"description": ["Blue mug", "Jug", "Mat", "Lamp"], "row": [2, 3, 4, 5], "quantity": [2, 3, 4, 1]}),
    manifest("unicode_line_breaks_inside_cells", [
        ["Description", "Qty", "Unit Retail"], ["Blue\u2028mug", 2, 5], ["Jug\u2029tall", 3, 7],
        ["Pan\x85flat", 4, 8], ["Lid\x0bround", 5, 9], ["Mat\x0clong", 6, 9],
    ], table={"quantity": [2, 3, 4, 5, 6], "row": [2, 3, 4, 5, 6], "tag_each": [500, 700, 800, 900, 900]}),
    manifest("cut_off_descriptions", [
        ["Description", "Qty", "Unit Retail"],
        *[[f"{name} with glazed inside, dishwasher-safe"[:30], 1, 5]
          for name in ("Blue mug, handmade", "Red mug, handmade", "Stoneware jug", "Tall beer jug", "Cereal bowl no. 4",
                       "Soup bowl no. 12", "Salad bowl", "Milk pan", "Baking dish", "Butter dish", "Tea cup", "Vase")],
    ], units=12, says=("cut|missing",)),
    manifest("quotes_and_delimiters_in_text", [
        ["Description", "Qty", "Unit Retail"], ['Frame 5" x 7", oak; matt', 1, 5], ["Mug | blue\ttall", 2, 7],
    ], table={"description": ['Frame 5" x 7", oak; matt', "Mug | blue tall"], "quantity": [1, 2]}),
    manifest("an_unquoted_inch_sign", """
        Description,Qty,Unit Retail
        Monitor 24" wide,1,150.00
        Blue mug,2,9.50
        Frame 5" x 7",3,7.00
        """, table={"quantity": [1, 2, 3], "tag_each": [15000, 950, 700]}),
)  # fmt: skip

CELLS = NUMBERS + CODES + WORDS
