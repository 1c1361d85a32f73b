"""Sample plans and bare shells by HTTP: listed, and read as plan files to begin a plan of one's own with."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path
from fastapi.responses import Response

from app.storage.samples import SHELLS, sample_file, sample_names
from app.storage.troubles import PlanMissing
from app.web.answers import SampleLine, described, of_type, refusals
from app.web.serving import JSON, json_answer

router = APIRouter(tags=["samples"])
SampleId = Annotated[str, Path(description="the sample's id, as the list says")]


@router.get("/api/samples", responses=described(200, list[SampleLine], "the samples by name"))
def list_samples() -> Response:
    """List the sample plans."""
    return json_answer([{"id": stem, "name": name} for stem, name in sample_names().items()])


@router.get("/api/samples/{sample_id}", responses=of_type("application/json", "a plan file") | refusals(404))
def read_sample(sample_id: SampleId) -> Response:
    """Read a sample plan file."""
    found = sample_file(sample_id)
    if found is None:
        raise PlanMissing(f"no sample has the id {sample_id[:60]}")
    return Response(found.read_bytes(), media_type=JSON)


@router.get("/api/shells", responses=described(200, list[SampleLine], "the shells by name"))
def list_shells() -> Response:
    """List the bare shells that a plan can begin with."""
    return json_answer([{"id": stem, "name": name} for stem, name in sample_names(SHELLS).items()])


@router.get("/api/shells/{shell_id}", responses=of_type("application/json", "a plan file") | refusals(404))
def read_shell(shell_id: Annotated[str, Path(description="the shell's id, as the list says")]) -> Response:
    """Read a bare shell's plan file."""
    found = sample_file(shell_id, SHELLS)
    if found is None:
        raise PlanMissing(f"no shell has the id {shell_id[:60]}")
    return Response(found.read_bytes(), media_type=JSON)
