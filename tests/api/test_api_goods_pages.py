"""Kinds of goods on a lot's page: one fold a kind with links to its lines, however many they are."""

from api_world import World
from evaluation_document import document, line
from full_shop import fill
from page_reading import said

from api.http.pages.cautions import LINES_SHOWN, parted
from models.services.frozen_question import freeze_question
from models.store.queries.evaluations import NewEvaluation

MANY = {
    "kind": "battery", "what": "Lithium battery or power bank on 200 lines: it is dangerous goods.",
    "check": "Read your carrier's rules.", "source": "USPS Publication 52", "count": 200, "lines": list(range(1, 201)),
}  # fmt: skip
ONE = {
    "kind": "helmet", "what": "Helmet: a blow may not show. Not listed here unless you choose to.", "line": 2,
    "check": "Look.", "source": "common practice, no source", "count": 1,
}  # fmt: skip
BARE = {"what": "No word of our cautions matched on 5 of 206 lines.", "check": "Look at the goods yourself."}


def test_goods_are_parted_from_other_cautions() -> None:
    other = {"what": "Its tag is 0: not believed.", "check": "Look.", "line": 3}
    found = parted([other, MANY, ONE, BARE])
    assert (found.own, found.of_lines[0].what) == ((BARE,), "Its tag is 0")
    assert [one.title for one in found.goods] == ["Lithium battery or power bank on 200 lines", "Helmet on line 2"]
    assert (len(found.goods[0].lines), found.goods[0].count) == (LINES_SHOWN, 200)


def test_the_lot_page_groups_them(world: World) -> None:
    shop = world.shop("a")
    full, page = fill(world, shop), world.browser(shop)
    told = {"kind": "helmet", "what": ONE["what"] + " Its words: helmet.", "check": "Look."}
    made = document()
    made["cautions"] = [*made["cautions"], MANY, ONE, BARE]
    with world.store.write() as work:
        lot = work.lots.require(shop.id, full.lot_id)
        asked = freeze_question(work, shop.id, lot, full.number)
        frozen = {"given": list(asked.given), "learned": {}, "edits": []}
        lines = [line(1), line(2) | {"cautions": [told]}, line(3)]
        new = NewEvaluation(full.number, 1, asked.as_of, 1, frozen, made, lines, b"draws")
        work.evaluations.add(shop.id, full.lot_id, full.job_id, new)
    text = said(page, f"/lots/{full.lot_id}")
    assert text.count("dangerous goods") == 1
    assert "Lithium battery or power bank on 200 lines It is dangerous goods." in text
    assert "30 and 170 more. Source: USPS Publication 52." in text
    assert "Helmet on line 2" in text
    assert "matched on 5 of 206 lines" in text
    assert "Check: Helmet." in text, "beside the line only its kind"
    assert f'href="/lots/{full.lot_id}/lines/30"' in page.get(f"/lots/{full.lot_id}").text
    one, other = (said(page, f"/lots/{full.lot_id}/lines/{no}") for no in (2, 1))
    assert "Its words: helmet." in one
    assert "No word of our cautions matched" not in one
    assert "No word of our cautions matched on this line. That does not mean that it is safe" in other
