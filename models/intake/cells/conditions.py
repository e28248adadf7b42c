"""Which of our six states does a wording mean?  Exact words, then rules; what neither knows stays unknown.

Common practice, no source: the trade has no standard.  A bare grade ("B", "Grade 2") belongs to whoever gave it and is
never guessed.
"""

import re
import unicodedata
from collections.abc import Sequence

from models.intake.cells.reading import Reading, Readings, read_column
from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text
from models.values.conditions import UNKNOWN, Condition, code_of

_SPLIT = re.compile(r"[^\w]+")
_WORDS: dict[Condition, tuple[str, ...]] = {
    Condition.SEALED: word_list("""
        sealed; new; brand new; bn; nib; bnib; nip; nos; nwt; bnwt; mint in box; overstock; new overstock;
        surplus; shelf pull; shelf pulls; new shelf pull; unopened; unused; factory new; factory sealed; new
        with tags; closeout; neu; neuware; ovp; neu ovp; originalverpackt; neuf; nuevo; nuovo; nieuw; precintado;
        nieuw in doos; nowy; nowa; nowe; novo
    """),
    Condition.OPENED: word_list("""
        opened; open; open box; openbox; ob; like new; as new; new other; o b; new open box; nwot; bnwot; nwob; mint;
        display; display model; floor model; ex display; demo; box damage; damaged box; new without tags; new
        without box; wie neu; geoffnet; geöffnet; neuwertig; comme neuf; como nuevo; come nuovo; zo goed als
        nieuw; deballe; abierto sin usar
    """),
    Condition.WORKS: word_list("""
        works; working; tested; tested working; tested good; tested return; tested returns; functional; fully
        functional; refurbished; refurb; renewed; reconditioned; remanufactured; excellent; very good; good;
        used good; used very good; used excellent; repaired; gut; sehr gut; funktioniert; getestet;
        generalüberholt; bon etat; tres bon etat; reconditionne; reacondicionado; buen estado; buono;
        ricondizionato; goed; occasion bon etat; usato funzionante
    """),
    Condition.WORN: word_list("""
        worn; used; pre owned; preowned; pre loved; second hand; secondhand; fair; acceptable; ok; okay; poor;
        heavily used; well worn; play wear; gebraucht; akzeptabel; occasion; usagé; d occasion; usado; usato;
        gebruikt; używany; używana; używane; begagnad
    """),
    Condition.UNTESTED: word_list("""
        untested; not tested; unchecked; uninspected; unknown; returns; return; customer return; customer
        returns; raw returns; untested return; untested returns; store return; store returns; as is; mixed
        returns; ungeprüft; ungeprueft; ungetestet; retoure; retouren; rückläufer; kundenretoure;
        kundenretouren; non teste; retour client; retours; sin probar; devolucion; non testato; reso; niet getest
    """),
    Condition.SALVAGE: word_list("""
        salvage; parts; for parts; parts only; for parts or not working; for parts not working; spares; spares
        or repair; scrap; broken; defective; faulty; damaged; not working; non working; nonfunctional; does not
        work; for repair; incomplete; dead; defekt; kaputt; bastler; ersatzteile; hs; en panne; pour pièces;
        averiado; para piezas; roto; guasto; rotto; per ricambi; kapot;
        beschädigt; beschadigd; endommagé; dañado; danneggiato; niesprawny; zepsuty
    """),
}
# The first rule that finds its words decides; refusals ("not working", "untested") come before what they refuse.
_RULES: tuple[tuple[Condition, re.Pattern[str]], ...] = tuple(
    (condition, re.compile(rf"\b(?:{'|'.join(word_list(words))})\b"))
    for condition, words in (
        (
            Condition.UNTESTED,
            "untested; (?:not|niet) (?:been )?(?:ge)?test(?:ed)?; unchecked; uninspected; unverified; unknown",
        ),
        (
            Condition.SALVAGE,
            r"""salvage; (?:for|as) parts; parts only; missing parts; spares; scrap; broken; defective; faulty; defekt;
            (?:not|non|doesn t|does not|partially|partly|won t) (?:fully )?(?:work|working|functional|power|turn)\w*;
            nonfunctional; no power; inoperable; for repair;
            (?<!box )(?<!package )(?<!packaging )damaged(?! (?:box|packag));
            (?<!doos )(?<!verpakking )beschadigd; (?<!karton )(?<!verpackung )beschadigt; (?<!opakowanie )uszkodzon\w*;
            niesprawn\w*; hs; (?:pour|para) (?:pieces|piezas); en panne; no funciona; non funzionante; niet werkend""",
        ),
        (Condition.WORKS, r"refurb\w*; renewed; reconditioned; remanufactured"),
        (
            Condition.OPENED,
            r"""(?:damaged|dented|torn|crushed|missing|no|distressed) (?:box|pack\w*|pkg);
            (?:box|pack\w*) (?:damaged?|wear);
            open(?:ed)?(?: box)?; like new; as new; new other; without (?:tags?|box); no tags?; display; floor model;
            wie neu; comme neuf""",
        ),
        (
            Condition.WORKS,
            r"tested; working; works; functional; refurb\w*; renewed; reconditioned; very good; excellent; good",
        ),
        (
            Condition.WORN,
            r"used; worn; pre ?owned; second ?hand; fair; acceptable; poor; scratch\w*; cosmetic\w*; gebraucht",
        ),
        (Condition.UNTESTED, "returns?; as is; retouren?"),
        (Condition.SEALED, "new; sealed; overstock; shelf pulls?; unopened; unused; neu; neuf"),
    )
)


def _plain(wording: str) -> str:
    text = unicodedata.normalize("NFKD", wording.replace("_", " ")).casefold()
    text = "".join(character for character in text if not unicodedata.combining(character))
    return " ".join(_SPLIT.sub(" ", text).split())


_EXACT = {_plain(word): condition for condition, words in _WORDS.items() for word in words}
_PARTLY_NEW = re.compile(r"\b\d{1,2}\s*% (?:new|neu)", re.IGNORECASE)  # 90% new is somebody's own scale
_NOT_NEW = re.compile(r"\b(?:not|non) new\b")
_NEVER_USED = re.compile(r"\b(?:never|not)(?: been)? (?:used|worn|opened)\b")


def condition_of(wording: str) -> Condition | None:
    """The state a wording means, None if it says nothing known.

    Parameters
    ----------
    wording : str
        As the file has it.

    Examples
    --------
    >>> [condition_of(word) for word in ("NEW - Open Box", "Not working / parts", "Used: very good", "Grade B")]
    [<Condition.OPENED: 'opened'>, <Condition.SALVAGE: 'salvage'>, <Condition.WORKS: 'works'>, None]
    """
    if _PARTLY_NEW.search(wording):
        return None
    words = _NEVER_USED.sub("new", _NOT_NEW.sub("used", _plain(wording)))
    if words in _EXACT:
        return _EXACT[words]
    return next((condition for condition, rule in _RULES if rule.search(words)), None)


def read_conditions(cells: Sequence[Cell]) -> Readings[int]:
    """Code of each cell's condition; `UNKNOWN` for blank, and named where the wording is not known.

    Examples
    --------
    >>> [(reading.value, reading.doubt) for reading in read_conditions(["Brand New", "", "Grade B"])]
    [(0, ''), (-1, ''), (-1, 'a condition wording that is not known')]
    """
    return read_column(cells, _read)


def _read(cell: Cell) -> Reading[int]:
    wording = plain_text(cell)
    if not wording:
        return Reading(UNKNOWN)
    condition = condition_of(wording)
    if condition is None:
        return Reading(UNKNOWN, "a condition wording that is not known", "taken as unknown")
    return Reading(code_of(condition))
