"""The best use of every weight in the house: which hangs where, what to add, make and buy."""

from evenhung.plan.allotment.document import allotment_document, allotted_plan_document
from evenhung.plan.allotment.house import HouseAllotment, allot_house

__all__ = ["HouseAllotment", "allot_house", "allotment_document", "allotted_plan_document"]
