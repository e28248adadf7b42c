"""What do a file's headers usually say?  Words of the trade for each canonical column, likeliest first.

Common practice, no source.  The first wording of a column is its canonical name.  What a header that could be several
things means ("price" in a manifest, "state") its content must tell, or the seller; see `Vocabulary.vague`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from models.intake.cells.word_lists import word_list
from models.intake.columns import vocabulary_abroad as abroad
from models.intake.columns.vocabulary_abroad import with_abroad
from models.intake.columns.vocabulary_beside import BESIDE, NOT_IN_SALES
from models.values.lines import LINE_COLUMNS, LINE_REQUIRED
from models.values.sales import SALES_COLUMNS, SALES_REQUIRED


@dataclass(frozen=True)
class Vocabulary:
    """One kind of file: its columns, their wordings, what is required, and keys a mapping may hold besides.

    `doubted` columns are asked about where they are not sure: a wrong one would be silent and dear.  Of two headers
    that name a `rivalled` one, either will not do.  `guessed` ones may be told by content alone.  `vague` is {header:
    {column: log-odds that it means it}} for headers that say little.
    """

    kind: str
    wordings: Mapping[str, tuple[str, ...]]
    required: tuple[str, ...]
    doubted: tuple[str, ...]
    rivalled: tuple[str, ...]
    guessed: tuple[str, ...]
    vague: Mapping[str, Mapping[str, float]]
    extra_keys: tuple[str, ...] = ()


_NAMES = word_list("""
    item description; product description; item name; product name; product title; item title; listing title; long
    description; short description; item; product; name; article; style description; model description; details;
    item details; goods; merchandise
""")
_TAGS = word_list("""
    unit retail; retail each; unit msrp; msrp each; retail price; msrp; unit retail price; rrp; list price; retail;
    retail unit; retail value each; suggested retail; suggested retail price; original retail; original price;
    tag price; price tag; tag; mrp; maximum retail price
""")
_SHARED: dict[str, tuple[str, ...]] = {
    "brand": word_list("""
        brand name; manufacturer; make; maker; vendor brand
    """),
    "category": word_list("""
        category name; seller category; main category; product category; item category; department; dept; product
        type; category path; class; subcategory; sub category; product group; dept name; dept description; department
        name; department description; merch dept; merchandise department; merchandise category; product family; product
        line; division; family
    """),
    "condition": word_list("""
        item condition; product condition; condition type; grade; condition grade; condition description; state
        item; state; estado; stato; staat; status; statut
    """),
    "quantity": word_list("""
        qty; units; unit qty; qty units; total units; unit count; count; pieces; number units; item qty; total
        qty; how many; sum qty; sum quantity; sum units; units lot; qty lot; pieces lot; number pieces; number items;
        item count
    """),
    "sku": word_list("""
        sku number; item sku; seller sku; custom label; stock number; stock code; item number; product id; product code;
        article number; part number; model number; style number; item code; asin; mpn; manufacturer part number
    """),
    "gtin": word_list("""
        upc; ean; upc code; ean code; upc ean; ean upc; barcode; bar code; upc number; ean number; gtin 13; ean
        13; upc a; isbn; universal product code; product code upc; product code ean; product upc; item upc
    """),
}

_ON_HAND = word_list("stock; stock qty; on hand; qty on hand; available; available qty; inventory; inventory qty")
_CASES = word_list("""
    cases; case count; number cases; qty cases; cases qty; total cases; cartons; number cartons; qty cartons; ctns;
    packs; number packs; boxes
""")  # what they count is asked

_BELOW = word_list("""
    subcategory; sub category; subcategory name; sub category name; sub department; subdepartment; sub dept; sub class;
    subclass; sub family; subfamily; category 2; category level 2; department 2; secondary category; unterkategorie;
    untergruppe; sous categorie; sous famille; subcategoria; subfamilia; sottocategoria; subcategorie
""")
_GOODS_STATES = word_list("item status; product status; return status; status item; status product")  # or of an order

_MANIFEST: dict[str, tuple[str, ...]] = {
    "description": ("title", "row labels", *_NAMES, *abroad.NAMES),
    **_SHARED,
    "brand": (*_SHARED["brand"], "vendor", "vendor name"),
    "condition": (*_SHARED["condition"], *_GOODS_STATES),
    "sku": (*_SHARED["sku"], *word_list("item id; internal id; style id")),
    "quantity": (*_SHARED["quantity"], *_ON_HAND, *_CASES),
    "tag_each": (
        *_TAGS,
        *abroad.TAGS,
        *word_list("""
            retail value; retail value unit; unit retail value; unit price; price each; item price; value each; unit
            value; price; value
        """),
        *abroad.VAGUE_PRICES,
        *abroad.LOT_PRICES,
    ),
    "tag_line": word_list("""
        extended retail; extended msrp; total retail; total msrp; extended retail price; extended retail value; total
        retail price; total retail value; retail extended; msrp extended; retail total; msrp total; line total; line
        retail; extended price; extended value; extended total; total rrp; total original retail; original retail
        total; total price; total value
    """)
    + abroad.TAG_LINES,
    "weight_kg": word_list("""
        weight kg; kg; weight lb; weight lbs; lbs; weight oz; weight; unit weight; item weight
    """),
    "pallet": word_list("""
        pallet id; pallet number; lpn; pallet lpn; skid; pallet name; gaylord; box number; box id; case number
    """),
    "pack_size": word_list("""
        case pack; units case; units case pack; case size; case qty; qty case; case quantity; pieces case; units
        carton; pieces carton; pieces ctn; carton qty; qty carton; master pack; units pack; pack qty; units box; inner
        pack; pcs box; pieces box; pcs carton; pcs ctn; pcs case; units ctn; unidades caja; pieces colis; pezzi cartone;
        stuck karton; pack; vpe; ve; verpackungseinheit; colisage; conditionnement
    """),  # internal: how many units a case holds
    "category_below": _BELOW,  # internal: the second part of a category's path
    "counted_in": word_list("""
        uom; u m; unit measure; qty uom; qty unit; unit qty type; measure; mengeneinheit; me; einheit; unite; unite
        mesure; unidad; unidad medida; unita misura; eenheid; unit
    """),  # internal: in what a quantity is counted
    "currency": word_list("""
        currency code; cur; curr; ccy; wahrung; devise; moneda; valuta; waluta
    """),  # internal: what the amounts of a line are in
}

_HISTORY: dict[str, tuple[str, ...]] = {
    "title": (*word_list("item title; listing title; product title; description"), *_NAMES, *abroad.NAMES),
    **_SHARED,
    "tag_each": (
        *(wording for wording in _TAGS if wording not in ("list price", "original price")),
        "retail value",
        *abroad.TAGS,
    ),
    "sold_price": word_list("""
        price sold; sold for; sold amount; sale price; selling price; final price; sold at; sold price each; unit
        sold price; winning bid; hammer price; hammer; price sold each; item price; unit price; price each; each; price;
        sold; verkauft; vendido; venduto; verkocht
    """)
    + abroad.VAGUE_PRICES,
    "listed_on": word_list("""
        date listed; listed date; listing date; list date; listed; start date; date listing; listing start;
        listing started; listed day; day listed; listed at; listing day; date posted; posted; posted on; post date;
        posting date; date published; published; published on; publication date; date created; created; created on;
        created at; creation date; live since; online since; start day; started; date started; start time
    """),
    "first_listed_on": word_list("""
        first listed; first listed date; date first listed; original listing date; original list date; first
        listing date
    """),
    "sold_on": word_list("""
        date sold; sold date; sale date; date sale; sold; order date; date order; paid on; paid date; sold time;
        purchase date; sold day; day sold; sale day; sold at; day sale; transaction date; date transaction;
        closing date; date out; date; datum; fecha; data
    """),
    "asking_price": word_list("""
        asking; ask price; list price; listing price; listed price; start price; starting price; original price;
        current price; buy it now price
    """),
    "cost": word_list("""
        unit cost; item cost; cost each; cogs; cost goods; purchase price; buy price; buying price; purchase
        cost; price paid; cost price; bought for; paid for
    """),
    "fees": word_list("""
        fee; selling fees; selling fee; total fees; commission; platform fees; marketplace fees; sale fees; sales
        fees
    """),
    "shipping_charged": word_list("""
        shipping income; shipping paid by buyer; postage paid by buyer; delivery paid by buyer; buyer paid postage;
        shipping paid by customer; postage paid buyer; customer paid shipping; shipping charged to buyer;
        shipping charged buyer; postage charged; post charged; buyer paid shipping; shipping paid buyer; shipping
        revenue; shipping handling; shipping and handling; postage and packing; shipping collected; shipping price;
        buyer shipping; shipping buyer; buyer postage
    """),
    "shipping_paid": word_list("""
        shipping cost; postage paid; postage cost; shipping label cost; label cost; shipping expense; actual
        shipping; shipping label; seller shipping; shipping seller; seller postage; my shipping; my postage
    """),
    "refunded": word_list("""
        refund; refund amount; refunds; amount refunded; refunded amount
    """),
    "listing_minutes": word_list("""
        minutes list; minutes to list; listing time; minutes listing; list time; prep minutes; time list; minutes
    """),
    "lot": word_list("""
        lot number; lot id; lot name; purchase lot; bulk lot; batch; load; load number; pallet; pallet id
    """),
    "source": word_list("""
        supplier; vendor; bought from; purchased from; source name; acquired from
    """),
    "sourced": word_list("""
        source type; sourcing; sourcing type; sourced as; how sourced; acquisition; bought as; acquired as
    """),
    "place": word_list("""
        marketplace; platform; channel; sales channel; site; venue; sold where
    """),
    "listing_ref": word_list("""
        listing id; listing number; item id; ad id; listing reference; listing; item number
    """),
    "order_ref": word_list("""
        order id; order number; order; order ref; order code; invoice number; invoice; invoice id; sale id;
        sale number; transaction id; order reference
    """),
    "status": word_list("""
        order status; state; staat; sale status; sale state; sold status; listing state; sold; verkauft; vendu;
        vendido; venduto; verkocht; is sold; item status; listing status; cancelled; order state; statut; stato; estado
    """),
}
# Headers that say little: the content must tell, or the seller.
_BY_CONTENT = ("state", "estado", "stato", "staat", "status", "statut", *_GOODS_STATES)
_PRICES = (*word_list("price; unit price; price each; item price; value; unit value; value each"), *abroad.VAGUE_PRICES)
_A_PRICE = 0.3  # of a manifest: a tag, a cost, an asking price
_A_SOLD_PRICE = 2.0  # of a sold history: what it sold for, unless another column says so
_A_DAY = 1.0  # of a sold history: when it sold, unless another column says so
_A_PART = 2.0  # of a category, unless no other column names one
_A_COUNT = 2.0  # of cases: the units of the row, unless another column counts them
_DAYS = word_list("date; datum; fecha; data")
_WHOSE_DAYS = word_list(
    "purchase date; kaufdatum; date achat; fecha compra; data acquisto; aankoopdatum"
)  # ours or theirs?


def _vague(words: tuple[str, ...], prices: dict[str, float]) -> Mapping[str, Mapping[str, float]]:
    known: tuple[tuple[tuple[str, ...], dict[str, float]], ...] = (
        (_BY_CONTENT, {"condition": 0.0, "status": 0.0}),
        (words, prices),
        (_DAYS, {"sold_on": _A_DAY}),
        (_WHOSE_DAYS, {"sold_on": 0.0}),
        (_CASES, {"quantity": _A_COUNT}),
        (_BELOW, {"category_below": _A_PART}),
    )
    return MappingProxyType({word: columns for words, columns in known for word in words})


def _named(wordings: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    return {column: (column.replace("_", " "), *words) for column, words in wordings.items()}


_BESIDE_SALES = {column: words for column, words in BESIDE.items() if column not in NOT_IN_SALES}
PRICE_IS = "sold_price_is"  # "unit" (the default), "row" or "order": what a sold price stands for
MANIFEST = Vocabulary(
    "manifest",
    _named(with_abroad(_MANIFEST, abroad.SHARED | abroad.MANIFEST)),
    LINE_REQUIRED,
    ("quantity", "tag_each", "tag_line"),
    ("quantity", "tag_each", "tag_line"),
    ("description", "condition", "quantity", "tag_each", "gtin"),
    _vague((*_PRICES, *abroad.LOT_PRICES), {"tag_each": _A_PRICE}),
)
HISTORY = Vocabulary(
    "history",
    _named(with_abroad(_HISTORY, abroad.SHARED | abroad.HISTORY) | _BESIDE_SALES),
    SALES_REQUIRED,
    ("sold_price", "quantity", "sold_on"),
    ("sold_price", "quantity"),
    ("title", "condition", "sold_price", "sold_on", "gtin"),
    _vague(_PRICES, {"sold_price": _A_SOLD_PRICE}),
    (PRICE_IS,),
)
KNOWN_KEYS = frozenset({*LINE_COLUMNS, *SALES_COLUMNS, PRICE_IS, "status", "pack_size", *BESIDE})
