"""The pure whole: one manifest, one fitted model, one set of settings, one seed -> one evaluation."""

import numpy as np

from models.appraisal.document import document
from models.appraisal.draw import Drawn, draw_lot
from models.appraisal.evidence import Evidence
from models.appraisal.judge import judge
from models.appraisal.line_documents import line_documents
from models.appraisal.model import Model
from models.appraisal.prepare import Prepared, prepare
from models.appraisal.question import Evaluation, Progress, Question
from models.appraisal.stored import Stored
from models.decide.actions import Action
from models.decide.cash_curve import weekly_table
from models.values.errors import Rejected


def appraise(question: Question, model: Model, progress: Progress) -> Evaluation:
    """Value a lot; raises Rejected where the model speaks another currency than the settings."""
    settings = question.held.settings
    if settings.currency != model.currency:
        raise Rejected(
            f"The settings are in {settings.currency}, the sold history in {model.currency}: "
            "amounts are never converted, so both must name the same currency."
        )
    progress(0.0, "matching the lines with your own sales")
    lot = prepare(question, model)
    drawn = draw_lot(lot, question, model, lambda share, step: progress(0.05 + 0.9 * share, step))
    progress(0.95, "working out the bid ceiling")
    stored = kept(question, model, lot, drawn)
    decision = judge(stored, settings)
    lines = line_documents(question, lot, drawn, decision, Evidence.of(lot, model))
    return Evaluation(
        document=document(question, lot, drawn, stored, decision),
        lines=lines,
        components=stored.to_bytes(),
    )


def kept(question: Question, model: Model, lot: Prepared, drawn: Drawn) -> Stored:
    """What reading the decision again needs."""
    listed = ~np.isin(drawn.lines.action, (Action.SKIP, Action.NEVER))
    return Stored(
        components=drawn.components,
        judgement_sd=lot.prices.judgement_sd,
        listed_units=float(lot.lines.quantity[listed].sum()),
        unit_minutes=model.effort.unit_minutes,
        pace_declared=model.tempo.declared,
        as_of=question.as_of,
        paid=lot.times.paid,
        ends=lot.times.ends,
        weeks=weekly_table(drawn.weekly),
    )
