"""Sold histories as they pile up: several files and languages, refunds months later, a sheet a month, doubled rows."""

from corpus.case import histories, history
from corpus.workbooks import book, day

_HEADER = ["Title", "Sold price", "Date sold"]

ODD_HISTORIES = (
    histories("spanish_sales_live_listings_and_refunds_half_a_year_later", {
        "ventas.csv": """
            Pedido;Anuncio;Título;Precio de venta;Cantidad;Fecha de venta
            P-1;A-1;Taza azul;8,00;1;05/03/2026
            P-2;A-2;Jarra;9,50;2;26/03/2026
            """,
        "anuncios_activos.csv": """
            Anuncio;Título;Precio;Disponible;Fecha de inicio
            A-3;Alfombra;7,00;3;20/02/2026
            A-2;Jarra;9,75;4;10/02/2026
            """,
        "devoluciones.csv": """
            Pedido;Título;Importe reembolsado;Fecha
            P-2;Jarra;-9,50;17/09/2026
            P-7;Lámpara;-30,00;18/09/2026
            """,
    }, currency="EUR", problems={2: "*", 3: "*"}, says=("row 3: order P-7 'Lámpara'", "taken to be 2026-02-20"), table={
        "title": ["Taza azul", "Jarra", "Alfombra", "Jarra"], "sold_price": [800, 950, None, None],
        "quantity": [1, 2, 3, 2], "refunded": [None, 475, None, None],
        "listed_on": [None, "2026-02-10", "2026-02-20", "2026-02-10"]}),
    histories("a_ledger_of_orders_payouts_and_a_refund_in_june", {
        "jan.csv": """
            Type,Order,Item title,Item price,Date
            Order,O-1,Blue mug,$8.00,"Jan 5, 2026"
            Order,O-2,Jug,$9.00,"Jan 6, 2026"
            Payout,,,-$15.00,"Jan 7, 2026"
            """,
        "june.csv": """
            Type,Order,Item title,Item price,Date
            Order,O-3,Mat,$7.00,"Jun 5, 2026"
            Refund,O-1,Blue mug,-$8.00,"Jun 6, 2026"
            Refund,O-0,Lamp,-$30.00,"Jun 6, 2026"
            """,
    }, problems={3: "*", 4: "*"}, aside=(4,), says=("row 4: order O-0 'Lamp'",), money=2400,
        table={"title": ["Blue mug", "Jug", "Mat"], "refunded": [800, None, None]}),
    history("sold_in_pounds_and_paid_out_in_euros", """
        Order number,Title,Sold price,Currency,Payout,Payout currency,Date sold
        O-1,Blue mug,8.00,GBP,9.10,EUR,2026-03-05
        O-2,Jug,9.00,GBP,10.30,EUR,2026-03-06
        """, currency="GBP", says=("Sold in GBP and paid out in EUR: 2 rows",), table={"sold_price": [800, 900]}),
    history("a_sheet_a_month", book({
        "Jan": [_HEADER, ["Blue mug", 8, day("2026-01-05")], ["Jug", 9, day("2026-01-06")], ["Total", 17, None]],
        "Feb": [_HEADER, ["Mat", 7, day("2026-02-05")], ["Total", 7, None]],
        "Summary": [["Month", "Total"], ["Jan", 17], ["Feb", 7]],
    }), "s.xlsx", says=("the rows of 2 sheets were read as one history", "'summary'"), money=2400,
        table={"title": ["Blue mug", "Jug", "Mat"], "row": [2, 3, 5]}),
    history("orders_and_listings_in_one_workbook", book({
        "Orders": [["Order number", "Title", "Sold price", "Date sold"], ["O1", "Blue mug", 8, day("2026-01-05")]],
        "Listings": [["Listing number", "Title", "Asking price", "Start date", "Status"],
                     ["L1", "Mat", 8, day("2026-02-05"), "Active"]],
    }), "s.xlsx", asks=("sheet_is",), answers={"sheet_is": "orders"}, says=("'listings'",),
        table={"title": ["Blue mug"]}),
    history("italian_sums_a_page", """
        Riepilogo vendite;;;;
        Periodo: 01/01/2026 - 31/03/2026;;;;

        Ordine;Articolo;Prezzo di vendita;Quantità;Data vendita
        1001;Tazza blu;8,00;1;05/03/2026
        1002;Brocca;9,50;1;26/03/2026

        Totale;;17,50;2;
        Ordine;Articolo;Prezzo di vendita;Quantità;Data vendita
        1003;Tappeto;7,00;1;27/03/2026
        Totale;;7,00;1;
        Totale generale;;24,50;3;
        """, currency="EUR", money=2450, table={"order_ref": ["1001", "1002", "1003"], "row": [5, 6, 10]}),
    history("a_block_pasted_twice", """
        Order number,Title,Sold price,Quantity,Date sold
        O-1,Blue mug,8.00,1,2026-03-05
        O-2,Jug,9.00,2,2026-03-06
        O-1,Blue mug,8.00,1,2026-03-05
        O-2,Jug,9.00,2,2026-03-06
        O-3,Jug,9.00,2,2026-03-06
        """, problems={4: "", 5: ""}, aside=(4, 5), says=("the same as row 2 in every cell",), money=4400),
    history("two_equal_sales_without_a_number", """
        Title,Sold price,Date sold
        Blue mug,8.00,2026-03-05
        Jug,9.00,2026-03-06
        Blue mug,8.00,2026-03-05
        """, money=2500, says=("rows 2 and 4",)),
    histories("the_same_export_twice_and_one_that_overlaps", {
        "march.csv": "Order number,Title,Sold price,Date sold\nO-1,Mug,8,2026-03-05\nO-2,Jug,9,2026-03-06\n",
        "march (1).csv": "Order number,Title,Sold price,Date sold\nO-1,Mug,8,2026-03-05\nO-2,Jug,9,2026-03-06\n",
        "april.csv": "Order number,Title,Sold price,Date sold\nO-2,Jug,9,2026-03-06\nO-3,Mat,7,2026-04-06\n",
    }, money=2400, table={"title": ["Mug", "Jug", "Mat"]},
        says=("march (1).csv: all its rows (2) stand in march.csv", "april.csv: 1 of its 2 rows stands in march.csv")),
    history("a_history_on_its_side", """
        Title,Blue mug,Jug
        Sold price,8.00,9.00
        Date listed,2026-02-05,2026-02-06
        Date sold,2026-03-05,2026-03-06
        """, says=("on its side",), table={"title": ["Blue mug", "Jug"], "sold_on": ["2026-03-05", "2026-03-06"]}),
)  # fmt: skip
