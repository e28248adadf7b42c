"""Which header is which canonical column?  Trade words, checked by content, one to one; a given mapping wins."""

from collections.abc import Mapping, Sequence
from functools import cache

from models.intake.content import looks_like
from models.intake.grid import Cell, written_cell
from models.intake.vocabulary import KNOWN_KEYS, PRICE_IS, Content, Vocabulary
from models.intake.word_lists import word_list
from models.intake.wordings import plain_words
from models.values.errors import NeedsColumns, Rejected

EXACT, PART = 1000, 500  # a header that is a wording, one that only contains it
_CANONICAL = 100  # above every other wording of its column
_PER_EXTRA_WORD = 60
_MOST_EXTRA_WORDS = 2
# One of these beside a wording makes it something else: "buyer name", "retail total", "item url".
_VETO = frozenset(
    word_list("""
    total; extended; sum; date; time; id; number; code; url; link; image; photo; picture; status; type; count;
    email; mail; name; address; phone; zip; postal; city; state; country; buyer; customer; recipient; receiver;
    bill; billing; user; username; seller; contact; tax; vat; percent; discount; shipping; postage; fee; fees;
    refund; cost; price; note; notes; comment; rank
""")
)
# Too common to be believed inside a longer header.
_WHOLE_ONLY = frozenset(
    word_list("""
    article; artikel; asking; batch; box; class; count; department; dept; fee; grade; item; kg; label; lbs;
    listed; listing; load; lot; make; marca; menge; minutes; name; order; paid; pieces; posten; precio; preis;
    prezzo; price; prix; product; produkt; retail; site; sold; source; state; tag; titel; units; weight
""")
)
_WHOLE_ONLY_BUT = {"retail": frozenset({"each", "unit", "value", "original", "est", "estimated", "msrp"})}


def header_scores(header: str, vocabulary: Vocabulary) -> dict[str, int]:
    """How well a header's plain words name each column they could name.

    Examples
    --------
    >>> from models.intake.vocabulary import MANIFEST
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
                    scores[column] = max(scores.get(column, 0), PART - _PER_EXTRA_WORD * extra - rank)
    return scores


def _believable(wording: str, others: list[str]) -> bool:
    if _VETO.intersection(others):
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


def check_mapping(mapping: Mapping[str, str]) -> None:
    """Refuse a mapping no file could use.

    Raises
    ------
    Rejected
        If a key is no canonical column, or `sold_price_is` is neither "row" nor "unit".

    Examples
    --------
    >>> check_mapping({"title": "Item", "sold_price_is": "row"})
    """
    unknown = [key for key in mapping if key not in KNOWN_KEYS]
    if unknown:
        raise Rejected(f"'{unknown[0]}' is not a column that can be mapped.", dict.fromkeys(unknown, "no such column"))
    if mapping.get(PRICE_IS, "unit") not in ("row", "unit"):
        raise Rejected("sold_price_is must be 'row' or 'unit'.", {PRICE_IS: "must be row or unit"})


def given_columns(headers: Sequence[Cell], vocabulary: Vocabulary, mapping: Mapping[str, str]) -> dict[str, int]:
    """Positions of the headers a mapping names; headers this file does not have are passed over.

    Examples
    --------
    >>> from models.intake.vocabulary import MANIFEST
    >>> given_columns(["No", "What it is"], MANIFEST, {"description": "what it is", "brand": "Maker"})
    {'description': 1}
    """
    exact = [written_cell(header).strip() for header in headers]
    plain = [plain_words(header) for header in headers]
    found: dict[str, int] = {}
    for column, header in mapping.items():
        if column not in vocabulary.wordings:
            continue
        if header.strip() in exact:
            found[column] = exact.index(header.strip())
        elif plain_words(header) and plain_words(header) in plain:
            found[column] = plain.index(plain_words(header))
    return found


def match_columns(
    headers: Sequence[Cell], samples: Sequence[Sequence[Cell]], vocabulary: Vocabulary, mapping: Mapping[str, str]
) -> dict[str, int]:
    """Position of each canonical column that the file has.

    Parameters
    ----------
    headers : sequence of Cell
        The header row.
    samples : sequence of sequences of Cell
        Some cells of each column, in the headers' order.
    vocabulary : Vocabulary
        The kind of file.
    mapping : mapping
        {canonical: header in file}; wins over everything.

    Returns
    -------
    dict
        {canonical: position}, in the vocabulary's order.

    Raises
    ------
    NeedsColumns
        If a required column is not recognised.

    Examples
    --------
    >>> from models.intake.vocabulary import MANIFEST
    >>> match_columns(["Item #", "Item", "Qty."], [["1"], ["Blue mug"], ["2"]], MANIFEST, {})
    {'description': 1, 'quantity': 2, 'sku': 0}
    """
    found = given_columns(headers, vocabulary, mapping)
    taken = set(found.values())
    for _, column, position in _candidates(headers, samples, vocabulary):
        if column not in found and position not in taken:
            found[column] = position
            taken.add(position)
    _require(found, headers, vocabulary)
    return {column: found[column] for column in vocabulary.wordings if column in found}


def _candidates(
    headers: Sequence[Cell], samples: Sequence[Sequence[Cell]], vocabulary: Vocabulary
) -> list[tuple[int, str, int]]:
    """Best first; ties go to the column further left."""
    scored: list[tuple[int, str, int]] = []
    for position, header in enumerate(headers):
        words = plain_words(header)
        for column, score in header_scores(words, vocabulary).items():
            content = vocabulary.content.get(column, Content.ANY)
            if score > EXACT or looks_like(samples[position], content):
                scored.append((score, column, position))
    return sorted(scored, key=lambda candidate: (-candidate[0], candidate[2]))


def _require(found: Mapping[str, int], headers: Sequence[Cell], vocabulary: Vocabulary) -> None:
    missing = [column for column in vocabulary.required if column not in found]
    if missing:
        names = [written_cell(header) for header in headers if written_cell(header)]
        raise NeedsColumns(
            f"The {vocabulary.kind} has no column that reads like {' or '.join(missing)}. Say which header it is; "
            f"the file's headers are: {', '.join(names)}.",
            missing,
            names,
        )
