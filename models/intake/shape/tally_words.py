"""Which words begin the name of a sum, in any language we know?  Goods may be called so too: numbers must agree.

Common practice, no source.
"""

import re

from models.intake.cells.period_words import names_figure
from models.intake.cells.word_lists import word_list

_LONGEST = 60  # characters
_WORDS = "|".join(
    word_list(r"""
    (?:(?:grand|sub|running|pallet|lot|page|report|manifest|order|overall|final|net|file)[\s-]*)*totals?;
    sum (?:of|for|total);
    gesamt(?:summe|menge|betrag|wert|anzahl|zahl|stückzahl|preis)?; (?:end|zwischen|teil|gesamt)?summen?; insgesamt;
    (?:sous|sub)[\s-]?total\w*; somme; suma; importe total; totale; (?:eind|sub)?totaal; totaux; totali; totales;
    end of (?:the )?(?:list|file|report|manifest|page|data|sheet|table); razem;
    (?:(?:no\.?|number|#) (?:of )?)?(?:rows?|records?|lines?)(?=\W*\d*\W*$);
    ogó[łl]em; [łl][ąa]cznie; celkem; spolu; összesen; (?:genel )?toplam; итого; всего; summa; totalt;
    i alt; yhteens[äa];
    σύνολο; סה["״']?כ; סך הכל; المجموع; الإجمالي; اجمالي; 合計; 小計; 総計; 合计; 小计; 总计; 합계; 소계; 총계
""")
)
_BEGINS = re.compile(rf"\W*(?:{_WORDS})(?!\w)", re.IGNORECASE)
_LOOSE = re.compile(
    r"\W*(?:overall|count|end|ende|fin|fine|fim|koniec|einde|slut|net(?:to)?)(?!\w)",
    re.IGNORECASE,
)
_LETTER = re.compile(r"\w")
_ENDS = re.compile(r"\btotals?\W*$", re.IGNORECASE)


def begins_total(text: str) -> bool:
    """True for words that begin as the name of a sum does, and for a figure about all rows, such as their mean.

    Examples
    --------
    >>> begins_total("Grand Total (USD)"), begins_total("Endsumme"), begins_total("Summer dress")
    (True, True, False)
    >>> begins_total("Rows: 12"), begins_total("Max"), begins_total("Max drill")
    (True, True, False)
    """
    return len(text) <= _LONGEST and (bool(_BEGINS.match(text)) or names_figure(text))


def like_total(text: str) -> bool:
    """True for these, and for words that end a list or count it.

    Examples
    --------
    >>> like_total("*** END ***"), like_total("5 pieces total"), like_total("Count"), like_total("Endless scarf")
    (True, True, True, False)
    """
    return begins_total(text) or (len(text) <= _LONGEST and bool(_LOOSE.match(text) or _ENDS.search(text)))


def says_sum(text: str) -> bool:
    """True for words that no goods are called by: nothing follows the word that is like a total's.

    Examples
    --------
    >>> says_sum("*** END ***"), says_sum("Total P1"), says_sum("End table oak")
    (True, True, False)
    """
    found = _LOOSE.match(text)
    return (
        begins_total(text) or bool(_ENDS.search(text)) or (found is not None and not _LETTER.search(text, found.end()))
    )
