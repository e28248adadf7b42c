"""A lot that was really worked out, draws and all, by the jobs themselves."""

from api_world import Shop, World

from models.services.do_next_job import do_next_job
from models.store.states import Queue

GOODS = (("Lamp", 120.0), ("Kettle", 250.0), ("Blanket", 180.0), ("Radio", 400.0), ("Puzzle", 90.0))


def history(rows: int = 120) -> bytes:
    """Invented sales of five things, dear and cheap by turns."""
    lines = ["title,sold_price,listed_on,sold_on"]
    for no in range(rows):
        name, price = GOODS[no % len(GOODS)]
        month, day = 1 + no % 5, 1 + no % 27
        lines.append(
            f"{name},{price * (0.7 + (no * 7 % 13) / 20):.2f},2026-0{month}-{day:02},2026-0{month + 1}-{day:02}"
        )
    return "\n".join(lines).encode()


def manifest(quantity: int = 4) -> bytes:
    """So many of each of them."""
    return "\n".join(["description,quantity", *(f"{name},{quantity}" for name, _ in GOODS)]).encode()


def work_off(world: World) -> None:
    """Do every job there is."""
    while any(do_next_job(world.store, queue, None) for queue in (Queue.QUICK, Queue.LONG)):
        pass


def real_lot(world: World, shop: Shop) -> str:
    """The id of an evaluated lot."""
    client = world.client(shop)
    client.post("/api/v1/sales/imports", files={"file": ("sold.csv", history())})
    work_off(world)
    made = client.post("/api/v1/lots", files={"manifest": ("lot.csv", manifest())}, data={"as_of": "2026-07-01"})
    work_off(world)
    lot_id = str(made.json()["lot"]["id"])
    assert client.get(f"/api/v1/lots/{lot_id}").json()["state"] == "ready"
    return lot_id
