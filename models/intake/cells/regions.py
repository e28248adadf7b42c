"""Is a word a state, province or region, as buyers' addresses have them?

References
----------
ISO 3166-2 (subdivisions of US, CA, AU, DE); names as their countries write them in English or German.
"""

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text

_CODES = frozenset(
    word_list("""
    al; ak; az; ar; ca; co; ct; de; dc; fl; ga; hi; id; il; in; ia; ks; ky; la; me; md; ma; mi; mn; ms; mo; mt; ne; nv;
    nh; nj; nm; ny; nc; nd; oh; ok; or; pa; ri; sc; sd; tn; tx; ut; vt; va; wa; wv; wi; wy; pr; gu; vi; ab; bc; mb; nb;
    nl; ns; nt; nu; on; pe; qc; sk; yt; nsw; qld; sa; tas; vic; act; bw; by; be; bb; hb; hh; he; mv; ni; nw; rp; sl; sn;
    st; sh; th
""")
)
_NAMES = frozenset(
    word_list("""
    alabama; alaska; arizona; arkansas; california; colorado; connecticut; delaware; district of columbia; florida;
    georgia; hawaii; idaho; illinois; indiana; iowa; kansas; kentucky; louisiana; maine; maryland; massachusetts;
    michigan; minnesota; mississippi; missouri; montana; nebraska; nevada; new hampshire; new jersey; new mexico; new
    york; north carolina; north dakota; ohio; oklahoma; oregon; pennsylvania; rhode island; south carolina; south
    dakota; tennessee; texas; utah; vermont; virginia; washington; west virginia; wisconsin; wyoming; puerto rico;
    alberta; british columbia; manitoba; new brunswick; newfoundland and labrador; nova scotia; ontario; prince edward
    island; quebec; québec; saskatchewan; yukon; new south wales; queensland; south australia; tasmania; victoria;
    western australia; england; scotland; wales; northern ireland; baden-württemberg; bayern; berlin; brandenburg;
    bremen; hamburg; hessen; mecklenburg-vorpommern; niedersachsen; nordrhein-westfalen; rheinland-pfalz; saarland;
    sachsen; sachsen-anhalt; schleswig-holstein; thüringen; bavaria; hesse; saxony; lower saxony; thuringia
""")
)


def is_region(cell: Cell) -> bool:
    """True for the name or the short form of a state, province or region.

    Examples
    --------
    >>> is_region("TX"), is_region("US-NY"), is_region("new york"), is_region("used"), is_region(4)
    (True, True, True, False, False)
    """
    if not isinstance(cell, str) or len(cell) > 30:
        return False
    text = plain_text(cell).casefold().strip(".")
    return text in _NAMES or text.removeprefix("us-").replace(".", "") in _CODES
