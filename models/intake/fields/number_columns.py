"""Columns of plain numbers: units, kilograms, minutes; each read once and every doubt told."""

import numpy as np

from models.intake.cells.minutes import read_minutes
from models.intake.cells.quantities import read_quantities
from models.intake.cells.weights import read_weights
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray


def quantity_column(table: Table, comma: bool, findings: Findings) -> IntArray:
    """Units of each row, 0 where it is set aside; one where the file does not count at all."""
    if "quantity" not in table.columns:
        return np.ones(len(table), dtype=np.int64)
    readings = read_quantities(table.columns["quantity"], comma)
    findings.name_doubts("quantity", table.columns["quantity"], readings)
    return np.array(readings.values, dtype=np.int64)


def weight_column(table: Table, comma: bool, findings: Findings) -> FloatArray:
    """Kilograms of each row, NaN for blank."""
    readings = read_weights(table.cells("weight_kg"), table.headers.get("weight_kg", ""), comma)
    findings.name_doubts("weight_kg", table.cells("weight_kg"), readings)
    return np.array(readings.values, dtype=np.float64)


def minutes_column(table: Table, comma: bool, findings: Findings) -> FloatArray:
    """Listing minutes of each whole row, NaN for blank."""
    readings = read_minutes(table.cells("listing_minutes"), comma)
    findings.name_doubts("listing_minutes", table.cells("listing_minutes"), readings)
    return np.array(readings.values, dtype=np.float64)
