"""What is a manifest?  One entry a line; a line is so many units of one thing in one condition."""

from dataclasses import dataclass, field, fields

import numpy as np

from models.values.arrays import BoolArray, CodeArray, FloatArray, IntArray, TextArray


def _nothing() -> TextArray:
    return np.array([], dtype=object)


@dataclass(frozen=True)
class Lines:
    """All arrays of shape (n_lines,), in the file's order.  Money is per unit in minor units, NaN for blank."""

    no: IntArray  # 1, 2, 3, ... in the file's order
    row: IntArray  # 1-based row as a spreadsheet shows it
    description: TextArray
    brand: TextArray
    category: TextArray  # as the file has it: a path "A > B", or one level
    condition: CodeArray  # index in CONDITIONS, -1 unknown
    quantity: IntArray  # at least 1
    tag_each: FloatArray  # as claimed; NaN blank
    sku: TextArray
    gtin: TextArray  # blank or valid, leading zeros restored
    weight_kg: FloatArray
    pallet: TextArray
    assorted: BoolArray  # its words say assorted, mixed or various: many different goods
    condition_said: TextArray = field(default_factory=_nothing)  # the file's own words for the condition

    def __post_init__(self) -> None:
        if not len(self.condition_said):
            object.__setattr__(self, "condition_said", np.full(len(self.no), "", dtype=object))

    def __len__(self) -> int:
        return len(self.no)

    @classmethod
    def blank(cls, lines: int) -> "Lines":
        """So many lines of one sealed unit each, everything else blank.

        Examples
        --------
        >>> Lines.blank(2).no.tolist()
        [1, 2]
        """
        number, text = np.full(lines, np.nan), np.full(lines, "", dtype=object)
        texts = ("description", "brand", "category", "sku", "gtin", "pallet")
        columns = dict.fromkeys(texts, text) | {"tag_each": number, "weight_kg": number}
        columns |= {"no": np.arange(lines) + 1, "row": np.arange(lines) + 2}
        columns |= {"assorted": np.zeros(lines, dtype=np.bool_)}
        columns |= {"quantity": np.ones(lines, dtype=np.int64), "condition": np.zeros(lines, dtype=np.int8)}
        return cls(**columns)

    def take(self, index: IntArray | BoolArray) -> "Lines":
        """The lines at `index`, in its order."""
        return Lines(**{field.name: getattr(self, field.name)[index] for field in fields(self)})


LINE_COLUMNS: tuple[str, ...] = (
    "description", "brand", "category", "condition", "quantity", "tag_each", "tag_line", "sku", "gtin", "weight_kg",
    "pallet",
)  # fmt: skip
LINE_REQUIRED: tuple[str, ...] = ("description",)
