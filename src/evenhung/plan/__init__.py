"""The plan: what to do with every sash of a surveyed house, and why."""

from evenhung.plan.document import document_of
from evenhung.plan.house import HousePlan, SashPlan, WindowPlan, plan_house

__all__ = ["HousePlan", "SashPlan", "WindowPlan", "document_of", "plan_house"]
