"""Jobs in stages over working days: the shortest schedule with proof, or what forbids it."""

from evenhung.allot.schedule.problem import Answer, Conflict, Job, Problem, Rule, Stage
from evenhung.allot.schedule.solve import schedule

__all__ = ["Answer", "Conflict", "Job", "Problem", "Rule", "Stage", "schedule"]
