"""Trainings and what they made."""

from typing import Annotated

from fastapi import APIRouter, Body, Path, Response

from api.http.dependencies import CurrentShop, Cursor, Limit, ReadWork, WriteWork
from api.http.once import AnsweredOnce
from api.http.schemas.base import ListOut
from api.http.schemas.model_versions import ModelVersionOut, ModelVersionTested, TrainingIn, TrainingSubmitted
from models.services.activate_model import activate_model
from models.services.read_model_versions import read_model_version, read_model_versions
from models.services.submit_training import submit_training

router = APIRouter(tags=["model versions"])
Number = Annotated[int, Path(ge=1, le=2**31 - 1)]


@router.post("/trainings", status_code=202, response_model=TrainingSubmitted)
def post_training(
    shop: CurrentShop, work: WriteWork, once: AnsweredOnce, asked: Annotated[TrainingIn | None, Body()] = None
) -> TrainingSubmitted | Response:
    """Fit a new model version on all sales read so far."""
    asked = asked or TrainingIn()
    content = [asked.model_dump_json().encode()]
    return once(content, lambda: TrainingSubmitted.of(submit_training(work, shop, asked.as_of, asked.seed)))


@router.get("/model-versions")
def get_model_versions(
    shop: CurrentShop, work: ReadWork, limit: Limit = 50, cursor: Cursor = None
) -> ListOut[ModelVersionOut]:
    """Model versions, newest first."""
    return ListOut[ModelVersionOut].of(read_model_versions(work, shop, limit, cursor), ModelVersionOut.of)


@router.get("/model-versions/{number}")
def get_model_version(number: Number, shop: CurrentShop, work: ReadWork) -> ModelVersionTested:
    """One model version, and how near it would have been on the shop's own past."""
    return ModelVersionTested.of(read_model_version(work, shop, number))


@router.post("/model-versions/{number}/activate")
def post_activation(number: Number, shop: CurrentShop, work: WriteWork) -> ModelVersionOut:
    """Use this version from now on."""
    return ModelVersionOut.of(activate_model(work, shop, number))
