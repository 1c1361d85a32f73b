"""The drag's own line: a WebSocket on which one trial after another is asked and answered.

An HTTP call costs the browser and the server more than the answer itself; here both are paid once a drag.
"""

from __future__ import annotations

from fastapi import APIRouter, WebSocket, WebSocketDisconnect

from app.plan.faults import Fault, PlanRefused
from app.plan.reading import json_value
from app.web.problems import REFUSALS, refused
from app.web.serving import stored_work
from app.web.trials import trial_of

LONGEST_QUESTION = 2**16  # bytes; a trial takes a few hundred
LONGEST_MESSAGE = 2**20  # bytes that are taken to be refused in words; a longer one ends the line
router = APIRouter()


@router.websocket("/api/plans/{plan_id}/trial/live")
async def answer_trials(socket: WebSocket, plan_id: str) -> None:
    """Answer each trial as ``trial/touched`` does, with the revision, or the problem where it is refused.

    A question is a trial's body; an answer is ``{"revision", "answer"}`` or ``{"problem"}``, in the questions' order.
    """
    await socket.accept()
    try:
        while True:
            await socket.send_text(await _answered(socket, plan_id, await _question(socket)))
    except WebSocketDisconnect:
        return


async def _question(socket: WebSocket) -> bytes:
    message = await socket.receive()
    if message["type"] == "websocket.disconnect":
        raise WebSocketDisconnect(message["code"])
    text: str | None = message.get("text")
    return message["bytes"] if text is None else text.encode("utf-8", "surrogatepass")


async def _answered(socket: WebSocket, plan_id: str, question: bytes) -> str:
    try:
        if len(question) > LONGEST_QUESTION:
            raise PlanRefused(
                [Fault("", f"a trial is over {LONGEST_QUESTION // 2**10} KiB; shorten it")], too_large=True
            )
        revision, answer = await stored_work(socket, plan_id, "trial_touched", trial_of(json_value(question)))
    except REFUSALS as error:
        return f'{{"problem":{bytes(refused(socket, error).body).decode()}}}'
    return f'{{"revision":{revision},"answer":{answer.decode()}}}'
