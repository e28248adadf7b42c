"""Manifests laid out oddly: pages, units of measure, sums by any name, tables on their side, words below their row."""

from corpus.case import manifest
from corpus.workbooks import book, sheet_of


def _merge(workbook: object) -> None:
    for where in ("A4:A6", "A8:A9"):
        sheet_of(workbook, "Sheet").merge_cells(where)


_SIDE = """
    Description,Blue mug,Tin kettle,Floor mat
    Qty,2,3,1
    Unit Retail,9.50,24.00,7.00
    Condition,new,used,new
    """
_PALLETS = [
    ["Manifest 77", None, None, None, None], ["Pallet", "#", "Item", "Pcs", "MSRP"], [None] * 5,
    ["PLT-1", 1, "Blue mug", 2, 9.5], [None, 2, "Kettle", 3, 24], [None, 3, "Mat", 1, 7],
    ["PLT-1 total", None, None, 6, 98], ["PLT-2", 4, "Lamp", 1, 30], [None, 5, "Clock", 2, 12],
    ["PLT-2 total", None, None, 3, 54], ["All pallets", None, None, 9, 152],
]  # fmt: skip

ODD_SHAPES = (
    manifest("pages_with_their_title_header_units_and_carried_sums", """
        Lagerräumung Nord;;;;
        Lieferschein 4471;;;Seite 1 von 2;
        Artikelbezeichnung;Menge;EK-Nr.;UVP;UVP gesamt
        ;Stk;;EUR;EUR
        Palette 1 von 2;;;;
        Wasserkocher Edelstahl;3;K-1;1.024,90;3.074,70
        Bodenmatte 60 x 90;1;K-2;7,00;7,00
        Übertrag;4;;;3.081,70
        Lieferschein 4471;;;Seite 2 von 2;
        Artikelbezeichnung;Menge;EK-Nr.;UVP;UVP gesamt
        ;Stk;;EUR;EUR
        Übertrag;4;;;3.081,70
        Palette 2 von 2;;;;
        Blaue Tasse;12;K-3;9,50;114,00
        Gesamtsumme;16;;;3.195,70

        Alle Angaben ohne Gewähr.;;;;
        """, currency="EUR", stated=((4, 308170), (4, 308170), (16, 319570)),
        says=("Lieferschein 4471", "2 repeated headers"), unsaid=("does not agree",), table={
            "row": [6, 7, 14], "quantity": [3, 1, 12], "tag_each": [102490, 700, 950],
            "description": ["Wasserkocher Edelstahl", "Bodenmatte 60 x 90", "Blaue Tasse"],
            "pallet": ["Palette 1 von 2", "Palette 1 von 2", "Palette 2 von 2"]}),
    manifest("pallets_merged_with_sums_named_after_them", book({"Sheet": _PALLETS}, _merge), "m.xlsx",
        stated=((6, 9800), (3, 5400), (9, 15200)), unsaid=("does not agree",), table={
            "row": [4, 5, 6, 8, 9], "description": ["Blue mug", "Kettle", "Mat", "Lamp", "Clock"],
            "pallet": ["PLT-1", "PLT-1", "PLT-1", "PLT-2", "PLT-2"], "tag_each": [950, 2400, 700, 3000, 1200]}),
    manifest("pallet_sums_below_their_goods_and_a_wrong_grand_total", """
        ,,,,
        Northgate Recovery Yard,,,,
        Truck 18 / 2 pallets / 240 units approx.,,,,
        LN,ITEM DESC,CS,UNIT QTY,UNIT RETAIL
        ,,,(ea),($)
        PALLET A - KITCHEN,,,,
        1,Blue mug,1,12,9.50
        2,Tin kettle,2,6,24.00
        ,PALLET A TOTAL,3,18,258.00
        PALLET B - GARDEN,,,,
        3,Watering can,1,4,15.00
        4,Note cards,,10,3.00
        ,PALLET B TOTAL,1,14,90.00
        ,GRAND TOTAL,4,14,90.00
        * tags are estimates,,,,
        """, stated=((18, 25800), (14, 9000), (14, 9000)), unsaid=("240 units;",),
        says=("row 14, 'grand total 4 14 90.00', says 14 units and tags of $90; the lines used make 32 and $348",),
        table={"description": ["Blue mug", "Tin kettle", "Watering can", "Note cards"], "quantity": [12, 6, 4, 10]}),
    manifest("pallet_headings_with_their_sums_beside_them", """
        Description,Qty,Retail
        PALLET 1 - shelf pulls,5,91.00
        Blue mug,2,9.50
        Tin kettle,3,24.00
        PALLET 2 - untested,2,7.00
        Floor mat,1,7.00
        """, stated=((5, 9100), (2, 700)), says=("says 2 units; the lines used make 1",), table={
            "row": [3, 4, 6], "quantity": [2, 3, 1], "condition": ["sealed", "sealed", "untested"],
            "pallet": ["PALLET 1 - shelf pulls", "PALLET 1 - shelf pulls", "PALLET 2 - untested"]}),
    manifest("sums_of_sections_under_a_vague_header", """
        Closing 12 May;;;
        Pos;Posten;Stückzahl;Neupreis
        1;Bohrmaschine;2;89,00
        2;Werkzeugkasten;1;150,00
        ;Zwischensumme Werkzeug;4;328,00
        3;Gartenschlauch 20 m;4;24,90
        ;Garten gesamt;4;99,60
        ;Summe;7;427,60
        """, currency="EUR", asks=("description",), answers={"description": "Posten"},
        stated=((4, 32800), (4, 9960), (7, 42760)), says=("says 4 units; the lines used make 3",),
        table={"description": ["Bohrmaschine", "Werkzeugkasten", "Gartenschlauch 20 m"], "quantity": [2, 1, 4]}),
    manifest("a_table_on_its_side", _SIDE, says=("on its side",), table={
        "row": [2, 3, 4], "description": ["Blue mug", "Tin kettle", "Floor mat"], "quantity": [2, 3, 1],
        "tag_each": [950, 2400, 700], "condition": ["sealed", "worn", "sealed"]}),
    manifest("more_words_in_the_row_below", """
        Description,Qty,Unit Retail,SKU
        Blue mug,2,9.50,K-1
        colour: sky; boxed,,,
        Tin kettle,3,24.00,K-2
        with lid and whistle,,,
        Floor mat,1,7.00,K-3
        60 x 90 cm,,,
        """, problems={3: "", 5: "", 7: ""}, aside=(3, 5, 7), says=("more words of that row",),
        table={"description": ["Blue mug", "Tin kettle", "Floor mat"], "quantity": [2, 3, 1]}),
    manifest("two_lists_side_by_side", """
        Description,Qty,Retail,,Description,Qty,Retail
        Blue mug,2,9.50,,Desk lamp,1,30
        Tin kettle,3,24.00,,Clock,2,12
        Floor mat,1,7.00,,,,
        """, asks=("description",), answers={"description": "Description", "quantity": "Qty", "tag_each": "Retail"},
        says=("second list",), table={"description": ["Blue mug", "Tin kettle", "Floor mat"]}),
    manifest("boxes_by_page_with_a_total_of_boxes", """
        Item no.,Product,Boxes,In a box,RRP
        10,Blue mug,2,6,9.50
        11,Tin kettle,1,4,24.00
        Page 1,,,,
        Item no.,Product,Boxes,In a box,RRP
        12,Floor mat,3,2,7.00
        Page 2,,,,
        Totals,,7,,
        """, asks=("quantity_is",), answers={"quantity_is": "in a box"}, stated=((None, None),),
        says=("says 7 cases; the lines used make 6",), table={"row": [2, 3, 6], "quantity": [12, 4, 6]}),
    manifest("a_polish_list_asks_and_knows_its_total", """
        Lp.;Nazwa towaru;Ilość;Cena detaliczna
        1;Kubek niebieski;2;39,90
        2;Czajnik;3;119,00
        Razem;;5;436,80
        """, currency="PLN", asks=("description", "quantity", "tag_each"), stated=((5, 43680),), answers={
            "description": "Nazwa towaru", "quantity": "Ilość", "tag_each": "Cena detaliczna"},
        table={"description": ["Kubek niebieski", "Czajnik"], "quantity": [2, 3], "tag_each": [3990, 11900]}),
)  # fmt: skip
