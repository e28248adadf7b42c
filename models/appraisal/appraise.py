"""The pure whole: one manifest, one fitted model, one set of settings, one seed -> one evaluation."""

from models.appraisal.document import document
from models.appraisal.draw import draw_lot
from models.appraisal.judge import judge
from models.appraisal.line_documents import line_documents
from models.appraisal.model import Model
from models.appraisal.prepare import prepare
from models.appraisal.question import Evaluation, Progress, Question
from models.values.errors import Rejected
from models.values.packing import pack


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
    decision = judge(question, lot, drawn)
    lines = line_documents(question, lot, drawn, decision)
    return Evaluation(
        document=document(question, lot, drawn, decision),
        lines=lines,
        components=pack(drawn.components.arrays()),
    )
