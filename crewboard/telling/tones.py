"""What the state of a task means to whoever reads it."""

from crewboard.order.board import State
from crewboard.telling.line import Tone

STATE_TONE: dict[State, Tone] = {
    "ready": "safe",
    "under way": "strong",
    "held": "caution",
    "waiting": "faint",
    "finished": "faint",
    "set aside": "faint",
}
