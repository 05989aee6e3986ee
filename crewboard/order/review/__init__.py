"""The order of work looked over as a good schedule reviewer would."""

from crewboard.order.review.question import RULES, Question
from crewboard.order.review.review import review

__all__ = ["RULES", "Question", "review"]
