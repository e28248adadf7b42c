"""A bid plan with everything in it, in a real browser of a phone's width."""

import re
from typing import Any

from real_lot import history, manifest, work_off


def test_a_plan_fits_a_phone(screen: Any) -> None:
    program = screen.world.client(screen.shop)
    program.post("/api/v1/sales/imports", files={"file": ("sold.csv", history())})
    work_off(screen.world)
    program.post("/api/v1/trainings", json={})
    work_off(screen.world)
    number = program.get("/api/v1/model-versions").json()["items"][0]["number"]
    program.post(f"/api/v1/model-versions/{number}/activate")
    lots = []
    for units in (3, 5, 8):
        form = {"as_of": "2026-07-01", "name": f"A pallet with a rather long name, number {units}"}
        made = program.post("/api/v1/lots", files={"manifest": ("m.csv", manifest(units))}, data=form).json()
        lots.append(made["lot"]["id"])
    work_off(screen.world)
    query = "&".join([*(f"lot={one}" for one in lots), "cash=1000&hours=40"])
    seen = screen.look(f"/bid-plan?{query}")
    assert "Left out" in seen.document
    assert "All of them together" in seen.document
    assert re.search(r'data-wide="([^"]*)"', seen.document)[1] == "", "sticks out to the right"  # type: ignore[index]
    assert not [line for line in seen.log.splitlines() if "Content Security Policy" in line or "Uncaught" in line]
