"""What is always said beside a ceiling: the same words on the page, in the file and in the command's output."""

from models.values.problems import Caution

FEW_SALES = 20  # with fewer, prices rest on what is declared, not learned; common practice, no source
STANDING_CAUTIONS: tuple[Caution, ...] = (
    Caution(
        "The ceiling is an estimate, not a promise: a lot can bring less than every figure here.",
        "Start small, and never bid money you cannot afford to lose.",
    ),
    Caution(
        "Most lots are sold as they are, without return.",
        "Read the seller's terms and look at the photos before you bid.",
    ),
    Caution(
        "Recalled goods may not knowingly be sold; batteries, aerosols or perfume may not travel as ordinary parcels. "
        "Nothing was looked up here.",
        "Check the regulator's recall list and your carrier's rules; local rules decide.",
    ),
    Caution(
        "Tax, licences and what you owe on sales depend on where you are.",
        "Ask a licensed adviser; local rules decide.",
    ),
)
