"""Which amounts are the tag, the price, a fee or postage, in the words of several languages; what cannot be meant."""

from corpus.case import history, manifest

TAGS = (
    manifest("signs_of_rand_before_amounts", """
        Description,Qty,Retail
        Blue mug,2,R 30.00
        Jug,4,R1 500.50
        """, currency="ZAR", table={"tag_each": [3000, 150050]}),
    manifest("signs_of_yen_behind_amounts", """
        Description,Qty,Retail
        Blue mug,2,"3,980円"
        Jug,4,900円
        """, table={"tag_each": [398000, 90000]}, says=("but the currency in force is usd",)),
    manifest("roubles_in_words", """
        Description,Qty,Retail
        Blue mug,2,30 руб.
        Jug,4,15 р.
        """, currency="RUB", table={"tag_each": [3000, 1500]}, unsaid=("currency",)),
    manifest("tags_that_cannot_be_read", """
        Description,Qty,Retail
        Blue mug,2,30 zorkmid
        Jug,4,15 zorkmid
        Pan,1,
        """, table={"tag_each": [None, None, None]},
        says=("columns that may hold it were not read: 'retail' (30 zorkmid, 15 zorkmid)",)),
    manifest("tags_of_no_known_currency", """
        Description,Qty,Retail
        Blue mug,2,30 zm
        Jug,4,15 zm
        Pan,1,
        """, table={"tag_each": [None, None, None]}, problems={2: "tag_each", 3: "tag_each"},
        says=("most amounts in 'retail' could not be read, such as '30 zm', '15 zm'",)),
    manifest("ladenpreis_with_apostrophes_and_a_cost_beside", """
        Pos.;Bezeichnung;Stk;Ladenpreis CHF inkl. MWST;Total CHF;Einstand
        1;Kaffeemühle;4;1'249.00;4'996.00;310.50
        2;Wasserkocher;12;89.90;1'078.80;22.00
        3;Toaster;2;CHF 59.--;118.00;14.75
        Summe;;18;;6'192.80;
        """, currency="CHF", table={"tag_each": [124900, 8990, 5900], "quantity": [4, 12, 2]},
        says=("'Einstand' (a cost)", "tax or VAT inside")),
    manifest("vk_gesamt_with_tax_inside_alone", """
        Artikel;Menge;VK gesamt inkl. MwSt.
        Becher;2;19,00
        Kanne;3;72,00
        Lampe;1;30,00
        """, currency="EUR", asks=("tag_line",), answers={"tag_line": "VK gesamt inkl. MwSt."},
        table={"tag_each": [950, 2400, 3000]}, says=("VAT inside",)),
    manifest("prix_unitaire_and_montant_beside_a_purchase_price", """
        Désignation;Qté;PU TTC;Montant TTC;Remise %;Prix d'achat HT
        Poêle 28 cm;3;24,90 €;74,70 €;60;5,10 €
        Robot pâtissier;1;1 299,00 €;1 299,00 €;65;210,00 €
        Couteau;10;9,90 €;99,00 €;50;1,80 €
        Bouilloire;2;39,90 €;79,80 €;50;8,80 €
        """, currency="EUR", asks=("tag_each",), answers={"tag_each": "PU TTC", "tag_line": "Montant TTC"},
        table={"tag_each": [2490, 129900, 990, 3990]}, says=("'Prix d'achat HT' (a cost)",)),
    manifest("an_estimate_beside_bids", """
        Item,Units,Est. Retail Ea,Ext Est Retail,Opening Bid,Buy Now
        Air fryer,6,89.99,539.94,60.00,150.00
        Blender,10,49.99,499.90,80.00,170.00
        Iron,4,29.99,119.96,15.00,45.00
        """, table={"tag_each": [8999, 4999, 2999]},
        says=("are estimates", "'Opening Bid' (an asking price)")),
    manifest("retail_and_landed_cost_under_two_lines", """
        Item,Qty,Retail,Retail,Landed,Landed
        ,,each,ext.,each,ext.
        Mug,2,9.50,19.00,1.10,2.20
        Jug,3,24.00,72.00,2.20,6.60
        Pot,4,5.00,20.00,.50,2.00
        Pan,2,6.00,12.00,.60,1.20
        """, table={"tag_each": [950, 2400, 500, 600]}, says=("'Landed ext.' (a cost of the whole line)",)),
    manifest("points_that_may_part_thousands", """
        Item|Qty|MSRP
        Lathe|1|12.500
        Drill press|2|8.990
        Vice|1|999
        Stand|1|99999999999
        """, asks=("decimals_are",), answers={"decimals_are": "comma"}, problems={5: "tag_each"},
        table={"tag_each": [1250000, 899000, 99900, None]}),
    manifest("prices_with_units_and_lost_formulas", """
        Description,Count,Retail,Brand
        Mug,24,3.00 EA,#N/A
        Jug,12,4.50 EA,Northkiln
        Pot,6,7 EA,Northkiln
        #REF!,2,5.00,Northkiln
        Asst lids | 96,,12.345,Northkiln
        """, table={"description": ["Mug", "Jug", "Pot", "Asst lids"], "quantity": [24, 12, 6, 96],
                    "tag_each": [300, 450, None, 1234], "brand": ["", "Northkiln", "Northkiln", "Northkiln"]},
        problems={2: "brand", 4: "tag_each", 5: "description", 6: "quantity"}, aside=(5,),
        says=("rounded to 12.34", "counted as 96", "a count of units")),
    manifest("importe_beside_pvp_and_a_currency_for_each_line", """
        Artículo;Uds;PVP (IVA incl.);Importe;Moneda
        Taza;2;9,50;19,00;EUR
        Jarra;3;24,00;72,00;EUR
        Olla;4;5,00;20,00;USD
        Sartén;2;6,00;12,00;EUR
        """, currency="EUR", problems={4: "Moneda"}, table={"tag_each": [950, 2400, 500, 600]}, says=("currency",)),
    manifest("worth_of_the_piece_and_of_the_line", """
        Artikel;Menge;Wert/Stk;Wert ges.
        Tasse;2;9,50;19,00
        Kanne;3;24,00;72,00
        Pfanne;4;5,00;20,00
        Topf;1;1,00;1,00
        """, currency="EUR", table={"tag_each": [950, 2400, 500, 100]}, says=("'Wert/Stk'",)),
    manifest("arabic_digits_and_headers", """
        الوصف,الكمية,السعر
        كوب,٢,٩٫٥٠
        إبريق,٣,٢٤٫٠٠
        مصباح,١٢,١٬٢٥٠٫٠٠
        """, currency="EGP", asks=("description", "quantity", "tag_each"),
        answers={"description": "الوصف", "quantity": "الكمية", "tag_each": "السعر"},
        table={"quantity": [2, 3, 12], "tag_each": [950, 2400, 125000]}),
    manifest("all_taxes_inside_and_a_selling_price", """
        Item,Qty,MRP (Incl. of all taxes),Selling Price
        Phone,2,"24,999",21999
        Case,3,"1,299",999
        """, currency="INR", table={"tag_each": [2499900, 129900]},
        says=("tax or VAT inside", "'Selling Price' (some price)")),
)  # fmt: skip

SALES = (
    history("fees_in_three_columns_and_postage_told_by_the_payout", """
        Verkaufsdatum;Artikel;VK;Gebühr fix;Gebühr variabel;Werbegebühr;Porto;Auszahlung
        05.03.2026;Becher;10,00;0,35;1,10;0,50;4,19;3,86
        16.03.2026;Kanne;25,00;0,35;2,75;0,00;5,49;16,41
        """, currency="EUR", table={"sold_price": [1000, 2500], "fees": [195, 310], "shipping_paid": [419, 549],
                                    "shipping_charged": [None, None]},
        says=("'Gebühr fix' + 'Gebühr variabel' + 'Werbegebühr'", "what you paid for postage", "'Auszahlung'")),
    history("frais_de_port_charged_as_the_net_shows", """
        Titre;Date de vente;Prix de vente;Frais de port;Commission;Frais de paiement;Net perçu
        Tasse;05/03/2026;10,00;4,00;1,20;0,35;12,45
        Pichet;26/03/2026;25,00;6,00;3,00;0,35;27,65
        """, currency="EUR", table={"fees": [155, 335], "shipping_charged": [400, 600], "shipping_paid": [None, None]},
        says=("what buyers paid for postage",)),
    history("a_bare_shipping_column", """
        Title,Sold price,Shipping,Date sold
        Blue mug,10.00,4.00,2026-03-05
        Jug,12.00,5.00,2026-03-06
        """, asks=("shipping_is",), answers={"shipping_is": "paid"}, table={"shipping_paid": [400, 500]}),
    history("a_total_of_fees_beside_its_parts", """
        Title,Sold price,Qty,Selling fee,Payment fee,All fees,Store subscription fee,Date sold
        Blue mug,10.00,2,1.20,0.30,1.50,0.75,2026-03-05
        Jug,12.00,1,1.40,0.30,1.70,0.75,2026-03-06
        """, table={"fees": [75, 170]}, says=("'All fees' was read as all fees", "'Store subscription fee' (a fee)")),
    history("charges_that_are_fees_and_a_credit_that_is_none", """
        Date sold,Title,Sale price,Postage charged,Postage cost,Platform charge,Processing charge,Fee credit
        2026-03-05,Blue mug,10.00,4.00,3.20,1.30,.35,
        2026-03-26,Jug,12.00,4.00,3.30,1.50,.35,1.50
        """, table={"fees": [165, 185], "shipping_charged": [400, 400], "shipping_paid": [320, 330]},
        says=("'Platform charge' + 'Processing charge'", "'Fee credit' (a fee)")),
)  # fmt: skip

MONEY = TAGS + SALES
