"""Which columns could a header name?  By the trade's words: a wording itself, or one with a word or two beside it."""

import re
from collections.abc import Mapping
from functools import cache

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.vocabulary import Vocabulary

EXACT, PART = 1000, 500  # a header that is a wording, one that only contains it
_CANONICAL = 100  # above every other wording of its column
_VAGUE_PART = -1000  # below it: a header that only contains a wording that says little by itself
_PER_EXTRA_WORD = 60
_MOST_EXTRA_WORDS = 2
# One of these beside a wording makes it something else: "buyer name", "retail total", "item url".
VETO = frozenset(
    word_list("""
    total; extended; sum; date; time; id; number; code; url; link; image; photo; picture; status; type; count;
    email; mail; name; address; phone; zip; postal; city; state; country; buyer; customer; recipient; receiver;
    bill; billing; user; username; seller; contact; tax; vat; percent; discount; shipping; postage; fee; fees;
    refund; cost; charge; charges; price; note; notes; comment; rank;  kaufer; acheteur; comprador;
    acquirente; koper; gesamt; totale; totaal; importe; montant
""")
)
_PEOPLE = frozenset(
    word_list("""
    buyer; customer; recipient; receiver; email; mail; phone; tel; telefon; telephone; telefono; address; adresse;
    direccion; indirizzo; adres; city; town; zip; zipcode; postcode; postal; plz; street; strasse; rue; calle; via;
    straat; stadt; ville; ciudad; citta; stad; plaats; country; vorname; nachname; user; username; shipto; kaufer;
    acheteur; comprador; acquirente; koper; kunde; client; cliente; klant
""")
)
_PEOPLE_PHRASES = word_list("shipping to; first name; last name; full name; family name; bill to; billing to")
# A header with one of these is not guessed at by its content alone.
_SAYS_OTHERWISE = (
    frozenset(
        word_list("""
    line; row; year; jahr; size; grosse; taille; age; page; seq; sequence; bin; aisle; shelf; length; width; height;
    depth; cube; days; rating; season; week; month; day; stars; model; style; wholesale; bid; cubic; dimensions;
    volume; inches; cm; ek; einkauf; einkaufspreis; achat; coste; costo; compra; acquisto; inkoop; inkoopprijs;
    los; position; pos; ligne; zeile; riga; regel; linea; index; views; watchers; clicks; score
""")
    )
    | (VETO - {"price", "number", "code", "type", "count"})
    | _PEOPLE
)
# Too common to be believed inside a longer header.
_WHOLE_ONLY = frozenset(
    word_list("""
    article; artikel; asking; batch; data; date; datum; fecha; vendor; box; class; count; department; dept; division;
    family; fee; grade; item;
    kg; label; lbs; listed; listing; load; lot; make; marca; me; measure; menge; minutes; name; order; pack; paid;
    pieces; posten;
    precio; preis; prezzo; prijs; price; prix; product; produkt; retail; site; sold; source; state; tag; titel; units;
    weight; stato; estado; staat; status; statut; etat; valor; wert; waarde; valore; valeur; u m; unit; unite; unidad;
    einheit; eenheid; ve
""")
)
_SAYS_NOTHING = re.compile(r"(?:19|20)\d\d|(?:total|sum|gesamt|summe) \d+")  # "Retail 2026", "Qty (total 7)"
_WHOLE_ONLY_BUT = {"retail": frozenset({"each", "unit", "value", "original", "est", "estimated", "msrp"})}


def header_scores(header: str, vocabulary: Vocabulary) -> dict[str, int]:
    """How well a header's plain words name each column they could name.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> [header_scores(words, MANIFEST) for words in ("tag each", "unit retail", "buyer address")]
    [{'tag_each': 1100}, {'tag_each': 999}, {}]
    """
    wordings = _ranks(vocabulary)
    scores = {column: EXACT + (_CANONICAL if rank == 0 else -rank) for column, rank in wordings.get(header, ())}
    words = header.split()
    for extra in range(1, min(_MOST_EXTRA_WORDS, len(words) - 1) + 1):
        kept = len(words) - extra
        for wording, others in ((words[:kept], words[kept:]), (words[extra:], words[:extra])):
            for column, rank in wordings.get(" ".join(wording), ()):
                if _believable(" ".join(wording), others):
                    vague = column in vocabulary.vague.get(" ".join(wording), ())
                    score = (_VAGUE_PART if vague else PART) - _PER_EXTRA_WORD * extra - rank
                    scores[column] = max(scores.get(column, score), score)
    return scores


def header_odds(column: str, header: str, score: int, vocabulary: Vocabulary) -> float:
    """Log-odds that a header with this score means the column, before its content is looked at.

    Common practice, no source: a rank within a column's wordings only breaks ties.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> [header_odds("tag_each", words, score, MANIFEST) for words, score in (("tag each", 1100), ("unit retail", 999))]
    [8.0, 4.99]
    """
    if score > EXACT:
        return 6.5 if column == "quantity" else 8.0  # "Qty" beside "Units": cases and pieces, perhaps
    if score > PART:
        return vocabulary.vague.get(header, {}).get(column, 5.0) - 0.01 * (EXACT - score)
    if score < _VAGUE_PART:
        return min(odds[column] for odds in vocabulary.vague.values() if column in odds)
    extra, rank = divmod(PART - score, _PER_EXTRA_WORD)
    return 2.5 - 0.5 * (extra - 1) - 0.01 * rank


def may_be_guessed(header: str) -> bool:
    """False for a header that says that it is something else, whatever stands below it.

    Examples
    --------
    >>> may_be_guessed("wert"), may_be_guessed("buyer city"), may_be_guessed("")
    (True, False, True)
    """
    return not _SAYS_OTHERWISE.intersection(header.split()) and not about_people(header)


def about_people(header: str) -> bool:
    """True for the header of a column about buyers, whose cells are never shown or kept.

    Examples
    --------
    >>> about_people("shipping city"), about_people("nom acheteur"), about_people("item name")
    (True, True, False)
    """
    return bool(_PEOPLE.intersection(header.split())) or any(phrase in header for phrase in _PEOPLE_PHRASES)


def _believable(wording: str, others: list[str]) -> bool:
    if _SAYS_NOTHING.fullmatch(" ".join(others)):
        return True
    if VETO.intersection(others):
        return False
    return wording not in _WHOLE_ONLY or _WHOLE_ONLY_BUT.get(wording, frozenset()) >= set(others)


def _ranks(vocabulary: Vocabulary) -> Mapping[str, list[tuple[str, int]]]:
    return _ranks_of(vocabulary.kind, tuple(vocabulary.wordings.items()))


@cache
def _ranks_of(_: str, wordings: tuple[tuple[str, tuple[str, ...]], ...]) -> Mapping[str, list[tuple[str, int]]]:
    """{plain wording: the columns it names, each with the wording's place in that column's list}."""
    ranks: dict[str, list[tuple[str, int]]] = {}
    for column, words in wordings:
        for rank, wording in enumerate(words):
            columns = ranks.setdefault(plain_words(wording), [])
            if column not in [known for known, _ in columns]:
                columns.append((column, rank))
    return ranks
