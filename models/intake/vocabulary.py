"""What do a file's headers usually say?  Words of the trade for each canonical column, likeliest first.

Common practice, no source.  The first wording of a column is its canonical name.  A header that could be two things
("price" in a manifest) stands last; what no wording names is asked, not guessed.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from models.intake.word_lists import word_list
from models.values.lines import LINE_COLUMNS, LINE_REQUIRED
from models.values.sales import SALES_COLUMNS, SALES_REQUIRED


class Content(StrEnum):
    """What cells of a column must look like before a wording is believed."""

    ANY = "any"
    WORDS = "words"
    NUMBERS = "numbers"
    DATES = "dates"


@dataclass(frozen=True)
class Vocabulary:
    """One kind of file: its columns, their wordings, what is required, and keys a mapping may hold besides."""

    kind: str
    wordings: Mapping[str, tuple[str, ...]]
    required: tuple[str, ...]
    content: Mapping[str, Content]
    extra_keys: tuple[str, ...] = ()


_NAMES = word_list("""
    item description; product description; item name; product name; product title; item title; listing title; long
    description; short description; item; product; name; article; style description; model description; details;
    item details; artikelbezeichnung; bezeichnung; beschreibung; artikel; produkt; titel; designation; libelle; produit;
    descripcion; articulo; producto; titulo; descrizione; articolo; prodotto; titolo; omschrijving
""")
_TAGS = word_list("""
    unit retail; retail each; unit msrp; msrp each; retail price; msrp; unit retail price; rrp; list price; retail;
    retail unit; retail value each; suggested retail; suggested retail price; original retail; original     price;
    tag price; price tag; tag; uvp; uvp each; uvp stuck; listenpreis; ladenpreis; prix public; prix     conseille;
    pvp; prezzo listino; adviesprijs
""")
_SHARED: dict[str, tuple[str, ...]] = {
    "brand": word_list("""
        brand name; manufacturer; make; maker; vendor brand; marke; hersteller; marque; fabricant; marca; merk
    """),
    "category": word_list("""
        category name; seller category; main category; product category; item category; department; dept; product
        type; category path; class; subcategory; sub category; product group; kategorie; warengruppe; categorie;
        rayon; categoria
    """),
    "condition": word_list("""
        item condition; product condition; condition type; grade; condition grade; condition description; state
        item; zustand; etat; estado; condizione; condizioni; staat
    """),
    "quantity": word_list("""
        qty; units; unit qty; qty units; total units; unit count; count; pieces; number units; item qty; total
        qty; menge; anzahl; stuck; stk; stueck; stuckzahl; quantite; qte; cantidad; cant; unidades; quantita; aantal
    """),
    "sku": word_list("""
        sku number; item sku; seller sku; custom label; stock number; item number; product id; product code; article
        number; part number; model number; style number; item code; asin; artikelnummer; referencia; codice;
        artikelnummern
    """),
    "gtin": word_list("""
        upc; ean; upc code; ean code; upc ean; ean upc; barcode; bar code; upc number; ean number; gtin 13; ean
        13; upc a; isbn; code barres; strichcode; codigo barras; codice barre
    """),
}

_MANIFEST: dict[str, tuple[str, ...]] = {
    "description": ("title", *_NAMES),
    **_SHARED,
    "tag_each": (
        *_TAGS,
        *word_list("""
            retail value; unit price; price each; item price; einzelpreis; stuckpreis; prix unitaire; precio
            unitario; prezzo unitario; price; preis; prix; precio; prezzo
        """),
    ),
    "tag_line": word_list("""
        extended retail; extended msrp; total retail; total msrp; extended retail price; extended retail value;
        total retail price; total retail value; retail extended; msrp extended; retail total; msrp total; line
        total; line retail; extended price; extended value; extended total; total rrp; uvp gesamt; gesamt uvp;
        gesamtpreis; summe uvp; prix total; total price; total value; importe total; prezzo totale
    """),
    "weight_kg": word_list("""
        weight kg; kg; gewicht kg; poids kg; peso kg; weight lb; weight lbs; lbs; weight oz; weight; unit
        weight; item weight; gewicht; poids; peso
    """),
    "pallet": word_list("""
        pallet id; pallet number; lpn; pallet lpn; skid; pallet name; palette; palettennummer; gaylord; box
        number; box id; case number
    """),
}

_HISTORY: dict[str, tuple[str, ...]] = {
    "title": ("description", *_NAMES),
    **_SHARED,
    "tag_each": (*(wording for wording in _TAGS if wording not in ("list price", "original price")), "retail value"),
    "sold_price": word_list("""
        price sold; sold for; sold amount; sale price; selling price; final price; sold at; sold price each; unit
        sold price; winning bid; price sold each; item price; unit price; verkaufspreis; vk; verkauft fur; vk
        preis; prix vente; prix vendu; precio venta; prezzo vendita; verkoopprijs; price; preis; prix; precio;
        prezzo
    """),
    "listed_on": word_list("""
        date listed; listed date; listing date; list date; listed; start date; date listing; listing start; listing
        started; eingestellt am; eingestellt; angeboten am; date mise vente; fecha publicacion; data
        inserzione
    """),
    "first_listed_on": word_list("""
        first listed; first listed date; date first listed; original listing date; original list date; first
        listing date
    """),
    "sold_on": word_list("""
        date sold; sold date; sale date; date sale; sold; order date; date order; paid on; paid date; sold time;
        verkauft am; verkaufsdatum; datum verkauf; date vente; vendu le; fecha venta; data vendita; verkocht op
    """),
    "asking_price": word_list("""
        asking; ask price; list price; listing price; listed price; start price; starting price; original price;
        current price; buy it now price; angebotspreis; startpreis; prix demande; precio publicado
    """),
    "cost": word_list("""
        unit cost; item cost; cost each; cogs; cost goods; purchase price; buy price; buying price; purchase
        cost; price paid; einkaufspreis; ek; ek preis; prix achat; coste; prezzo acquisto
    """),
    "fees": word_list("""
        fee; selling fees; selling fee; total fees; commission; platform fees; marketplace fees; sale fees; sales
        fees; gebuhren; verkaufsgebuhren; frais; comisiones; commissioni
    """),
    "shipping_charged": word_list("""
        shipping income; shipping charged buyer; postage charged; buyer paid shipping; shipping paid buyer; shipping
        revenue; shipping handling; shipping and handling; postage and packing; shipping collected; shipping price;
        versand erhalten; versandkosten kaufer; port facture
    """),
    "shipping_paid": word_list("""
        shipping cost; postage paid; postage cost; shipping label cost; label cost; shipping expense; actual
        shipping; postage; shipping label; versandkosten; porto; frais port; coste envio; spese spedizione
    """),
    "refunded": word_list("""
        refund; refund amount; refunds; amount refunded; refunded amount; erstattung; erstattet; remboursement;
        reembolso; rimborso
    """),
    "listing_minutes": word_list("""
        minutes list; listing time; minutes listing; list time; prep minutes; time list; minutes
    """),
    "lot": word_list("""
        lot number; lot id; lot name; purchase lot; bulk lot; batch; load; load number; pallet; pallet id; posten;
        lote
    """),
    "source": word_list("""
        supplier; vendor; bought from; purchased from; source name; acquired from; lieferant; fournisseur;
        proveedor; fornitore
    """),
    "sourced": word_list("""
        source type; sourcing; sourcing type; sourced as; how sourced; acquisition; bought as; acquired as;
        herkunft; bezug
    """),
    "place": word_list("""
        marketplace; platform; channel; sales channel; site; venue; sold where; plattform; marktplatz; plateforme;
        plataforma; piattaforma
    """),
    "listing_ref": word_list("""
        listing id; listing number; item id; ad id; listing reference; listing; inserat nummer; angebotsnummer;
        numero annonce
    """),
    "order_ref": word_list("""
        order id; order number; order; sale id; sale number; transaction id; order reference; bestellnummer;
        auftragsnummer; numero commande; numero pedido; numero ordine
    """),
    "status": word_list("""
        order status; sale status; item status; listing status; cancelled; order state; zustand bestellung; statut;
        estado pedido; stato
    """),
}
_NUMBERS = word_list("""
    quantity; tag_each; tag_line; gtin; weight_kg; sold_price; asking_price; cost; fees; shipping_charged;
    shipping_paid; refunded; listing_minutes
""")
_CONTENT: dict[str, Content] = {
    **dict.fromkeys(("description", "title", "brand"), Content.WORDS),
    **dict.fromkeys(_NUMBERS, Content.NUMBERS),
    **dict.fromkeys(("listed_on", "first_listed_on", "sold_on"), Content.DATES),
}


def _named(wordings: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    return {column: (column.replace("_", " "), *words) for column, words in wordings.items()}


PRICE_IS = "sold_price_is"  # "unit" (the default) or "row": what a sold price stands for
MANIFEST = Vocabulary("manifest", _named(_MANIFEST), LINE_REQUIRED, _CONTENT)
HISTORY = Vocabulary("history", _named(_HISTORY), SALES_REQUIRED, _CONTENT, (PRICE_IS,))
KNOWN_KEYS = frozenset({*LINE_COLUMNS, *SALES_COLUMNS, PRICE_IS, "status"})
