"""Which settings do nothing here, and how little was learned?  Said, so that no answer looks firmer than it is."""

from collections.abc import Iterator
from dataclasses import replace

from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.values.categories import plain_path
from models.values.cautions import FEW_SALES
from models.values.changed import category_of
from models.values.problems import Caution


def few_sales_caution(lot: Prepared) -> Iterator[Caution]:
    """A history that cannot have taught much."""
    if lot.sales_used < FEW_SALES:
        count = {0: "no usable sale", 1: "1 usable sale"}.get(lot.sales_used, f"{lot.sales_used} usable sales")
        yield Caution(
            f"Your history holds {count}: these figures and their ranges are declared guesses, hardly learned from you,"
            " and nobody has tested how often they hold.",
            "Start with a small lot that you could afford to lose, and add your sales as they come.",
        )


def as_far_as_learned(caution: Caution, lot: Prepared) -> Caution:
    """What is told of winning, as firm as the history allows."""
    if lot.sales_used >= FEW_SALES:
        return caution
    return replace(caution, what=f"All of this holds only as far as the declared guesses do. {caution.what}")


def unheard_categories(question: Question, lot: Prepared) -> Iterator[Caution]:
    """Costs that the seller gave for a category that neither this lot nor the history has: mostly a slip."""
    if lot.categories is None:
        return
    heard = set(lot.categories) | {plain_path(text) for text in lot.lines.category.tolist()}
    heard |= {path.split(" > ")[0] for path in heard}
    yours = [category_of(one.key) for one in question.held.assumptions if one.source == "yours"]
    unheard = sorted({name for name in yours if name is not None and plain_path(name) not in heard})
    if unheard:
        names = ", ".join(f"'{name}'" for name in unheard)
        yield Caution(
            f"Your costs for {names} change nothing: no line of this lot and none of your sales is filed under that.",
            "Check how your files spell the category.",
        )
