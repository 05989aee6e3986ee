"""What both faces call: open a folder, look at the board, record, change the plan, undo."""

from crewboard.workbench.bench import Said as Said
from crewboard.workbench.bench import Workbench as Workbench
from crewboard.workbench.outcome import Done as Done
from crewboard.workbench.outcome import Outcome as Outcome
