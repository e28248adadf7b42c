"""What is a setting called in a sentence?  Its sentence of the registry up to the first pause, with its category."""

from models.values.changed import category_of
from models.values.settings import REGISTRY


def heading(key: str) -> str:
    """Name of a setting as its form shows it; the key itself where it is none of ours.

    Parameters
    ----------
    key : str
        A key of the registry, or of a category's own costs.

    Examples
    --------
    >>> heading("buying.freight"), heading('selling.by_category."Toys".packing'), heading("buying.unheard")
    ('Freight a pallet', 'Packing material an order: Toys', 'buying.unheard')
    """
    category = category_of(key)
    declared = REGISTRY.get(key if category is None else f"selling.{key.rpartition('.')[2]}")
    said = key if declared is None else declared.says.partition(";")[0].partition(":")[0].rstrip(".")
    return said if category is None else f"{said}: {category}"
