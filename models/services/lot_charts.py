"""Draw the curves of an evaluation."""

from collections.abc import Mapping
from typing import Any

from models.report.chart import Chart
from models.report.curves import evaluation_charts


def lot_charts(document: Mapping[str, Any]) -> dict[str, Chart]:
    """Pictures by name; what the evaluation does not tell has none."""
    return evaluation_charts(document)
