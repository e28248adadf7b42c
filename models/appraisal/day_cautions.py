"""Which days do not fit together?  A history too old or too new, a close in the past, goods that come too early."""

import datetime as dt
from collections.abc import Iterator

from models.appraisal.question import Question
from models.appraisal.timeline import ARRIVAL_DAYS, paid_on
from models.values.days import day_in_words
from models.values.problems import Caution

OLD_DAYS = 60  # a history that ended so long ago is told as old


def day_cautions(question: Question, known_until: dt.date) -> Iterator[Caution]:
    """Of the history, of the close, of the arrival."""
    as_of = question.as_of
    paid = paid_on(question.held.settings, as_of, question.zone)
    yield from _of_history(as_of, known_until)
    yield from _of_close(question.held.settings.lot.closes_at, as_of)
    yield from _of_arrival(question.held.settings.lot.arrives_on, as_of, paid)


def _of_history(as_of: dt.date, known_until: dt.date) -> Iterator[Caution]:
    old = (as_of - known_until).days
    if old > OLD_DAYS:
        yield Caution(
            f"Your sold history ends on {day_in_words(known_until)}, {old} days before this answer; prices may move.",
            "Upload your newer sales and learn again.",
        )
    if old < 0:
        yield Caution(
            f"This answer is for {day_in_words(as_of)}, but rests on sales up to {day_in_words(known_until)}.",
            "Check the day you asked for.",
        )


def _of_close(closes_at: dt.datetime | None, as_of: dt.date) -> Iterator[Caution]:
    if closes_at is not None and closes_at.date() < as_of - dt.timedelta(days=1):
        yield Caution(
            f"Bidding is given as ended on {day_in_words(closes_at.date())}, before this answer's day.",
            "Check the closing time.",
        )


def _of_arrival(arrives: dt.date | None, as_of: dt.date, paid: dt.date) -> Iterator[Caution]:
    """Whoever pays later than the goods come would sell before paying: they count as arriving that day."""
    if arrives is None:
        if paid > as_of + dt.timedelta(days=ARRIVAL_DAYS):
            yield Caution(
                f"No day of arrival is given: the goods count as arriving on {day_in_words(paid)}, when you pay.",
                "Give the day that you expect them; each later day lowers the ceiling.",
            )
    elif arrives < paid:
        when = (
            "this answer's day; it counts as today"
            if paid == as_of
            else (f"you pay for the goods on {day_in_words(paid)}; it counts as that day")
        )
        yield Caution(f"The arrival is given as {day_in_words(arrives)}, before {when}.", "Check the day of arrival.")
