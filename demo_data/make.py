"""Make the demo files again, byte for byte: `python demo_data/make.py [FOLDER]`.  Everything in them is invented."""

import datetime as dt
import sys
from pathlib import Path

from exports import history, new_quarter
from goods import BRANDS, NEW_BRANDS, products
from manifests import Line, lines, messy, new_brand, tidy
from market import AS_OF, START, Market, Unit
from shop import history_lots, lot_units, number_listings, sell, single_units, together
from writing import write_csv, write_xlsx


def main(folder: Path) -> None:
    """Write the five files; `settings.toml` is kept by hand."""
    catalogue = products(430, 1000, BRANDS, "catalogue")
    fresh = products(140, 5000, BRANDS, "fresh")
    unknown = products(60, 8000, NEW_BRANDS[:1], "unknown")
    other = products(10, 9000, NEW_BRANDS[1:], "other")
    bought = lines("tidy", catalogue, fresh[:80] + other, (66, 90))
    units = [*history_lots(catalogue), *single_units(catalogue), *_bought(bought)]
    sell(units, Market())
    number_listings(units)
    units = together(units)
    write_csv(folder / "sold_history.csv", history(units))
    write_csv(folder / "new_quarter.csv", new_quarter(units))
    write_xlsx(folder / "manifest_tidy.xlsx", tidy(bought))
    write_csv(folder / "manifest_messy.csv", messy(lines("messy", catalogue, fresh[80:], (30, 40))))
    write_csv(folder / "manifest_new_brand.csv", new_brand(lines("new brand", catalogue, unknown, (12, 48))))
    for path in sorted([*folder.glob("*.csv"), *folder.glob("*.xlsx")]):
        print(f"{path.name}: {path.stat().st_size:,} bytes")


def _bought(contents: list[Line]) -> list[Unit]:
    """The tidy lot was bought in the end: its units sell in the new quarter."""
    arrives = (AS_OF - START + dt.timedelta(days=10)).days
    return lot_units("LOT-25", "Hollow Lane Depot", arrives, contents)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)
