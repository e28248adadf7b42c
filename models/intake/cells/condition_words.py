"""The trade's words for the six states of goods, for what is said beside them, and for what takes them back.

Common practice, no source.  All but the whole wordings are matched on small letters without accents.
"""

import re

from models.intake.cells.word_lists import word_list
from models.values.conditions import Condition

WORDINGS: dict[Condition, tuple[str, ...]] = {
    Condition.SEALED: word_list("""
        sealed; new; brand new; bn; nib; bnib; nip; nos; nwt; bnwt; mint in box; overstock; new overstock;
        surplus; shelf pull; shelf pulls; new shelf pull; unopened; unused; factory new; factory sealed; new
        with tags; closeout; neu; neuware; ovp; neu ovp; originalverpackt; neuf; nuevo; nuovo; nieuw; precintado;
        unbenutzt; nieuw in doos; ongebruikt; nowy; nowa; nowe; novo; neuf emballe; sigillato; verzegeld;
        ungeoffnet; ongeopend
    """),
    Condition.OPENED: word_list("""
        opened; open; open box; openbox; ob; like new; as new; new other; o b; new open box; nwot; bnwot; nwob; mint;
        display; display model; floor model; ex display; demo; box damage; damaged box; new without tags; new
        without box; wie neu; geoffnet; geöffnet; neuwertig; comme neuf; como nuevo; come nuovo; zo goed als
        nieuw; deballe; abierto sin usar; geöffnete verpackung; geöffneter karton; geoeffnete verpackung; geoeffnet;
        ouvert; boite ouverte; abierto; caja abierta; aperto; scatola aperta; geopend; geopende verpakking; geopende
        doos
    """),
    Condition.WORKS: word_list("""
        works; working; tested; tested working; tested good; tested return; tested returns; functional; fully
        functional; refurbished; refurb; renewed; reconditioned; remanufactured; excellent; very good; good;
        used good; used very good; used excellent; repaired; gut; sehr gut; funktioniert; getestet;
        generalüberholt; bon etat; tres bon etat; reconditionne; reacondicionado; buen estado; buono;
        ricondizionato; goed; occasion bon etat; usato funzionante; gereviseerd; getest; getest en werkend;
        guter zustand; in gutem zustand; teste; fonctionne; probado; funciona; bueno; muy bueno; testato; funzionante;
        buone condizioni; buon stato; goede staat; zeer goed
    """),
    Condition.WORN: word_list("""
        worn; used; pre owned; preowned; pre loved; second hand; secondhand; fair; acceptable; ok; okay; poor;
        heavily used; well worn; play wear; gebraucht; akzeptabel; occasion; usagé; d occasion; usado; usato;
        gebruikt; używany; używana; używane; begagnad; accettabile; aceptable; acceptabel
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
        averiado; para piezas; roto; guasto; rotto; per ricambi; kapot; doa; salvaged;
        beschädigt; beschadigd; endommagé; dañado; danneggiato; niesprawny; zepsuty
    """),
}
_PACKAGING = (
    r"(?:(?:original |retail |outer )?(?:box(?:es)?|pack(?:age|aging)?|pkg|carton|karton|verpackung|originalverpackung|"
    r"ovp|doos|verpakking|opakowanie|emballage|boite|caja|embalaje|scatola|confezione|seal))"
)
_HURT = (
    r"(?:(?:slightly |lightly |minor |some |is |was )*(?:damaged?|dmgd?|broken|dented|torn|crushed|ripped|distressed|"
    r"wear|worn|beschadigt?|uszkodzon\w*|abimee?|endommagee?|danad[oa]|danneggiat[oa]))"
)
_TAGS = r"(?:tags?|etikett\w*|etiquett?es?|etiquetas?|etichett\w*|cartellin\w*)"
_UNDONE = r"(?:ouverte?|abiert[oa]|apert[oa]|geopend|geoffnet|otwart[ey])"
# What is said of the packaging alone: the goods have been opened at most.
UNWRAPPED = "unwrapped"
PACKAGING = re.compile(
    rf"\b(?:(?:{_HURT}|missing|not in(?: the| its)?|no|without|ohne|sans|sin|senza|zonder) (?:{_PACKAGING}|{_TAGS})|"
    rf"{_PACKAGING} (?:{_HURT}|{_UNDONE}|missing|fehlt))\b"
)
_FLAW = (
    r"(?<!cosmetic )(?:defe[ck]t\w*|defaut\w*|difett\w*|mangel\w*|flaws?|flawed|faults?|faulty|damages?|damaged|broken|"
    r"broke|beschadigd|beschadigt|uszkodzon\w*|niesprawn\w*|danad[oa]|endommage\w*|danneggiat\w*|cracked|cracks|shattered|"
    r"smashed|salvaged?|scrap|spares|inoperable|inoperative|nonfunction\w*|nonworking|unrepairable|unsellable|dead|doa|"
    r"hs|hors service|bastler\w*|en panne|parts only|(?:for|as|pour|para|per|fue?r|als|voor) "
    r"(?:parts|repair|pieces|piezas|ricambi|ersatzteile?|onderdelen)(?: only)?|"
    r"incomplete\w*|(?:missing|lacking|lacks) (?:\w+ )?(?:parts?|pieces?|components?))"
)
_BLEMISH = (
    r"(?:scratch\w*|scuff\w*|dents?|dented|dings?|chipped|stains?|stained|torn|tears|blemish\w*|imperfect\w*|faded|discolou?r\w*|"
    r"cosmetic\w*|kratzer\w*|gebrauchsspuren|(?:shelf|light|heavy|minor|some|signs of|normal) wear|wear and tear)"
)
_RETURN = (
    r"(?:(?:customer |store )?returns?|returned|(?:kunden|klant)?retour(?:s|en?|en?ware)?|devoluci\w+|res[io]|as is)"
)
_TEST = r"(?:(?:ge)?test(?:ed|ee?s?|at[aeio]|et)?|prob(?:ar|ad[oa]s?)|checked|inspected|verified|tried|gepr(?:u|ue)ft)"
_WORK = r"(?:work\w*|function\w*|operat\w*|power\w*|turn\w*|funktion\w*|werkend|funziona\w*|funciona\w*|fonctionn\w*)"
_OPEN = r"(?:geoe?ffnet(?:e[nrs]?)?|ouverte?|abiert[oa]|apert[oa]|geopende?)"
# "not" and its kin, and the small words that may stand between it and what it takes back.
NOT = (
    r"(?:not|non|no|never|without|cannot|(?:is|are|was|does|do|did|has|wo|ca) ?n ?t|nicht|kein\w*|nie|ohne|pas|sans|"
    r"jamais|ne|niet|geen|nooit|zonder|sin|nunca|senza|mai)"
)
LINK = (
    r"(?: (?:a|an|the|any|in|for|as|is|are|was|been|be|being|yet|fully|completely|properly|currently|longer|to|voll|"
    r"ganz|mehr|en|de|plus|box|brand|factory|obvious|known|major|minor|visible))*"
)
# What a state means once it is taken back; "" says nothing, and the other words decide.
TAKEN_BACK: tuple[tuple[str, str], ...] = (
    (_FLAW, ""),
    (_BLEMISH, ""),
    ("(?:issues?|problems?|wear|marks?)", ""),
    (_RETURN, ""),
    ("(?:untested|unknown|unchecked)", ""),
    (_TEST, "untested"),
    (_WORK, "broken"),
    (r"(?:new|neuf?|neue[rsnm]?|neuve|nuev[oa]|nuov[oa]|nieuw|now[yae]|mint)", "used"),
    (r"(?:sealed|unopened|versiegelt|scelle|sigillat[oa]|verzegeld)", "opened"),
    (rf"(?:used|worn|opened|{_OPEN}|gebraucht|benutzt|usad[oa]|usat[oa]|usar|uso|utilise|gebruikt)", "new"),
)
# The first that finds its words decides: the worse goes before the better.
RULES: tuple[tuple[Condition, re.Pattern[str]], ...] = tuple(
    (condition, re.compile(rf"\b(?:{words})\b"))
    for condition, words in (
        (Condition.SALVAGE, rf"{_FLAW}|(?:partially|partly) {_WORK}"),
        (
            Condition.UNTESTED,
            r"untested|unchecked|uninspected|unverified|untried|unknown|[uo]nge(?:test|pruf|pruef)\w*",
        ),
        (Condition.WORN, _BLEMISH),
        (Condition.WORKS, r"refurb\w*|renewed|reconditioned|remanufactured|generaluberholt|gereviseerd"),
        (
            Condition.OPENED,
            (
                r"open(?:ed)?(?: box)?|unsealed|unboxed|like new|as new|new other|display|floor model|"
                rf"wie neu|comme neuf|como nuev[oa]|come nuov[oa]|als nieuw|{_OPEN}"
            ),
        ),
        (
            Condition.WORKS,
            (
                "tested|working|works|functional|very good|excellent|good|gut(?:e[mr])?|bon etat|buen estado|bueno|"
                "buon[oe]?|goede?|getestet|funktioniert|teste|fonctionne|probado|funciona|testato|funzionante|getest|werkend"
            ),
        ),
        (
            Condition.WORN,
            (
                r"used|worn|pre ?owned|second ?hand|fair|acceptable|poor|"
                r"gebraucht|^occasion(?= ;|$)|usad[oa]|usat[oa]|gebruikt"
            ),
        ),
        (Condition.UNTESTED, _RETURN),
        (Condition.OPENED, UNWRAPPED),
        (
            Condition.SEALED,
            "new|sealed|overstock|shelf pulls?|unopened|unused|neue?|neuf|nuev[oa]|nuov[oa]|nieuw|now[yae]",
        ),
    )
)
# Words that leave a good state as it is.  Any other beside it may take it back in a way that nobody foresaw.
HARMLESS = frozenset(
    " ".join(
        word_list("""
    and or but also a an the of in with from for as at by to its all each are is it this; und oder et ou y e o i en de
    der die das la le les el il mit im aus avec dans con nel per met uit z w;
    item items goods product products unit units piece pieces pcs qty quantity count number stock merchandise;
    condition cond state quality grade class order zustand etat estado stato staat;
    original orig retail store shop warehouse factory manufacturer vendor seller customer brand genuine authentic oem
    certified warranty guaranteed; box boxes boxed packaging package packaged packages pack packed pkg carton cartons
    poly bag bagged plastic wrap wrapped shrink shrinkwrapped seal seals tag tags label labels sticker;
    unsealed unboxed complete perfect perfectly great well fine nice clean cleaned pristine undamaged unworn intact
    properly power powers on function functions functionality inspected checked verified ready resale sellable;
    overstocks overstocked excess surplus liquidation clearance closeouts discontinued season seasonal old off
    fully full completely still battery batteries manual accessories included see details percent first top high;
    once twice lightly gently slightly moderately bulk inventory;
    karton verpackung originalkarton originalverpackung originalverpackt ware artikel unbenutzt ungeoffnet unbeschadigt
    einwandfrei erhalten gepruft geprueft emballage boite caja embalaje scatola confezione doos verpakking
    blister sous etikett etiketten etiquette etiquettes etiqueta etiquetas etichetta etichette cartellino
""")
    ).split()
)
