"""What do headers say in German, French, Spanish, Italian and Dutch?  Common practice, no source.

As `plain_words` leaves them: accents folded, articles and "of" gone.
"""

from models.intake.cells.word_lists import word_list

NAMES = word_list("""
    artikelbezeichnung; bezeichnung; produktbezeichnung; warenbezeichnung; artikelbeschreibung; produktbeschreibung;
    beschreibung; artikelname; produktname; artikeltitel; produkttitel; artikel; produkt; titel; ware; gegenstand;
    designation; designation article; designation produit; description article; description produit; libelle; libelle
    article; libelle produit; nom article; nom produit; titre; titre annonce; produit; descripcion; descripcion
    articulo; descripcion producto; nombre articulo; nombre producto; articulo; producto; titulo; titulo anuncio;
    descrizione; descrizione articolo; descrizione prodotto; nome articolo; nome prodotto; articolo; prodotto; titolo;
    omschrijving; artikelomschrijving; productomschrijving; productnaam; artikelnaam; beschrijving
""")
TAGS = word_list("""
    u v p; p v p; r r p; m s r p; uvp; uvp each; uvp stuck; uvp brutto; uvp einzeln; einzel uvp; unverbindliche
    preisempfehlung; katalogpreis; listenpreis; ladenpreis; neupreis; originalpreis; prix public; prix public conseille;
    prix conseille; ppc; prix neuf; prix catalogue; prix magasin; pvp; pvp unitario; pvpr; precio venta publico; precio
    recomendado; precio tienda; precio catalogo; precio original; prezzo listino; prezzo consigliato; prezzo pubblico;
    prezzo originale; prezzo negozio; adviesprijs; catalogusprijs; winkelprijs; nieuwprijs; verkoopadviesprijs;
    prezzo unitario pubblico; prix unitaire public; prix public unitaire
""")
TAG_LINES = word_list("""
    uvp gesamt; gesamt uvp; gesamtbetrag; uvp summe; summe uvp; gesamtpreis; gesamtwert; warenwert; prix total; valeur
    totale; prix public total; total prix public; importe total; valor total; pvp total; total pvp; prezzo totale;
    valore totale; totale listino; totaalprijs; totale waarde; totale adviesprijs
""")
VAGUE_PRICES = word_list("""
    preis; einzelpreis; stuckpreis; artikelpreis; prix; prix unitaire; pu; precio; precio unitario; prezzo; prezzo
    unitario; prijs; stuksprijs; eenheidsprijs; wert; einzelwert; valeur; valeur unitaire; valor; valor unitario;
    valore; valore unitario; waarde
""")
LOT_PRICES = word_list("""
    vk; vkp; vk preis; vk stuck; vk einzeln; verkaufspreis; ladenverkaufspreis; cena; cena jednostkowa; wartosc; pris
""")  # of a manifest: what a shop asks, or whoever offers the lot
SHARED = {
    "brand": "marke; hersteller; fabrikat; marque; fabricant; marca; marchio; fabricante; produttore; merk; fabrikant",
    "category": """
        kategorie; warengruppe; produktgruppe; abteilung; artikelgruppe; categorie; rayon; famille; famille produit;
        categoria; familia; departamento; reparto; famiglia; afdeling; productgroep
    """,
    "condition": """
        zustand; artikelzustand; zustand artikel; etat; etat article; etat produit; condicion; condiciones;
        condizione; condizioni; conditie; toestand; estado articulo; estado producto; stato articolo; stato prodotto;
        staat artikel
    """,
    "quantity": """
        menge; anzahl; stuck; stk; stueck; stuckzahl; einheiten; quantite; qte; nombre unites; nb pieces; nombre
        pieces; unites; cantidad; cant; ctd; unidades; uds; piezas; numero unidades; quantita; qta; q ta; pezzi;
        numero pezzi; unita; anz; nombre; nombre articles; aantal; stuks; hoeveelheid; aantal stuks
    """,
    "sku": """
        artikelnummer; artikelnummern; artikel number; art number; lagernummer; bestandsnummer; referencia; reference;
        reference article; reference interne; ref; codigo; codigo articulo; codice; codice articolo; riferimento;
        codice interno; artikelcode
    """,
    "gtin": """
        ean nummer; ean13; code barres; code ean; strichcode; barcode nummer; codigo barras; codigo ean; codice barre;
        codice ean; streepjescode; ean number
    """,
}
MANIFEST = {
    "weight_kg": "gewicht kg; gewicht; stuckgewicht; poids kg; poids; poids unitaire; peso kg; peso; peso unitario",
    "pallet": "palette; palettennummer; paletten number; palette number; numero palette; palet; bancale; pallet nummer",
}
HISTORY = {
    "sold_price": """
        verkaufspreis; verkauft fur; vk; vk preis; endpreis; verkaufsbetrag; erzielter preis; erlos; prix vente; prix
        vendu; vendu; vendu a; prix final; montant vente; precio venta; precio final; vendido por; importe venta;
        prezzo vendita; venduto a; prezzo finale; importo vendita; verkoopprijs; verkocht voor; eindprijs
    """,
    "listed_on": """
        eingestellt am; eingestellt; erstellt am; erstellt; eroffnet am; veroffentlicht am; online seit; gestartet am;
        cree le; date creation; publie le; publiee le; creado; fecha creacion; fecha publicado; creato il;
        data creazione; pubblicato il; inserito il; aangemaakt op; aangemaakt; geplaatst; online sinds; angeboten am;
        einstelldatum; angebotsbeginn; startdatum; date mise vente; date mise ligne; mis ligne; date publication;
        fecha publicacion; fecha alta; publicado; data inserzione; data pubblicazione; pubblicato; datum geplaatst;
        geplaatst op; plaatsingsdatum; fecha inicio; date debut; data inizio; begindatum; fecha anuncio; date annonce
    """,
    "first_listed_on": """
        erstmals eingestellt; zuerst eingestellt; erstmals eingestellt am; ersteinstellung; premiere mise ligne;
        premiere mise vente; primera publicacion; prima pubblicazione; prima inserzione;
        eerst geplaatst; eerste plaatsing
    """,
    "sold_on": """
        verkauft am; verkaufsdatum; datum verkauf; verkauft; bestelldatum; kaufdatum; date vente; vendu le; date
        commande; date achat; fecha venta; vendido; fecha pedido; fecha compra; data vendita; venduto; venduto il;
        data ordine; verkocht op; verkoopdatum; datum verkocht; besteldatum
    """,
    "asking_price": """
        angebotspreis; startpreis; sofortkaufpreis; wunschpreis; prix demande; prix annonce; precio publicado; precio
        anuncio; prezzo richiesto; prezzo annuncio; vraagprijs
    """,
    "cost": """
        einkaufspreis; ek; ek preis; einstandspreis; prix achat; cout achat; coste; precio compra; coste compra;
        prezzo acquisto; costo; costo acquisto; inkoopprijs; aankoopprijs
    """,
    "fees": """
        gebuhren; verkaufsgebuhren; verkaufsprovision; provision; frais; frais vente; commissions; comisiones;
        comision; gastos venta; commissioni; commissione; tariffe vendita; kosten verkoop; verkoopkosten; commissie
    """,
    "shipping_charged": """
        versand erhalten; versandkosten vom kaufer; versandkosten kaufer bezahlt; versandkosten bezahlt kaufer;
        versand vom kaufer; porto vom kaufer; porto kaufer; versandkosten durch kaufer; frais port acheteur;
        port paye acheteur; frais livraison acheteur; frais port payes acheteur; envio pagado comprador;
        gastos envio comprador; envio comprador; spese spedizione acquirente; spedizione pagata acquirente;
        spedizione acquirente; verzendkosten koper; verzendkosten betaald door koper;
        door koper betaalde verzendkosten; versandkosten kaufer; versand kaufer; versandeinnahmen; port facture;
        frais port factures; envio cobrado; spedizione addebitata; ontvangen verzendkosten
    """,
    "shipping_paid": """
        versandkosten bezahlt; porto bezahlt; coste envio; costo spedizione; betaalde verzendkosten
    """,
    "refunded": """
        erstattung; erstattet; ruckerstattung; remboursement; rembourse; reembolso; reembolsado; rimborso; rimborsato;
        terugbetaling; terugbetaald; erstattungsbetrag; montant rembourse; importe reembolsado; importe devuelto;
        importo rimborsato; terugbetaald bedrag
    """,
    "lot": "posten; lote; lotto; numero lot; partij",
    "source": "lieferant; bezugsquelle; fournisseur; proveedor; fornitore; leverancier",
    "sourced": "herkunft; bezug",
    "place": "plattform; marktplatz; verkaufskanal; plateforme; plataforma; piattaforma; canale; canal; kanaal",
    "listing_ref": """
        inserat nummer; inseratsnummer; angebotsnummer; anzeigennummer; numero annonce; numero anuncio; numero
        inserzione; advertentienummer; anuncio; annonce; inserzione; inserat; advertentie
    """,
    "order_ref": """
        bestellnummer; bestellnr; bestell number; bestellung number; auftragsnummer; auftragsnr; auftrags number;
        auftrag; auftrag number; rechnungsnummer; rechnungsnr; rechnungs number; rechnung number; rechnung;
        number commande; n commande; ref commande; reference commande; number facture; n facture; numero facture;
        number pedido; n pedido; referencia pedido; number factura; numero factura; n factura; number ordine; n ordine;
        riferimento ordine; numero fattura; number fattura; n fattura; ordernr; bestelnr; bestel number; factuurnummer;
        factuurnr; number zamowienia; numer zamowienia; zamowienie; numero commande; numero pedido; numero ordine;
        bestelnummer; ordernummer; pedido; ordine; commande; bestellung; bestelling
    """,
    "status": """
        zustand bestellung; bestellstatus; auftragsstatus; statut commande; etat commande; estado pedido; estado
        venta; stato ordine; bestelstatus
    """,
}


def with_abroad(wordings: dict[str, tuple[str, ...]], abroad: dict[str, str]) -> dict[str, tuple[str, ...]]:
    """Each column's wordings and those of other languages, each once.

    Examples
    --------
    >>> with_abroad({"brand": ("maker",)}, {"brand": "marke; maker"})
    {'brand': ('maker', 'marke')}
    """
    return {
        column: tuple(dict.fromkeys((*words, *word_list(abroad.get(column, ""))))) for column, words in wordings.items()
    }
