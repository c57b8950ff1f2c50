"""The schedule as a constraint program for CP-SAT, with only the rules that are asked for."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING, Any, NamedTuple

from ortools.sat.python import cp_model

from evenhung.allot.schedule.alone import soonest_last_day

if TYPE_CHECKING:
    from collections.abc import Collection

    from evenhung.allot.schedule.problem import Job, Problem, Rule


class StageVars(NamedTuple):
    """One stage: when it begins and on which working days it begins and ends."""

    start: Any
    end: Any
    first_day: Any
    last_day: Any
    busy: Any


class Held(NamedTuple):
    """What is taken already by jobs that are not asked about."""

    busy: tuple[tuple[int, int, bool], ...] = ()
    """First slot of a stage, how many, and whether at a bench."""
    apart: tuple[tuple[int, int, int], ...] = ()
    """First slot of an opening taken apart, how many, and its pieces."""
    nights: tuple[tuple[int, int], ...] = ()
    """First night of an opening boarded, by the day of the calendar before it, and how many."""
    within: tuple[tuple[int, int], ...] = ()
    """For each job that is asked about, the first slot and the one after the last that it has."""


class Model:
    """A constraint program of some days and some of the rules of a problem.

    Parameters
    ----------
    problem
        What is asked.
    rules
        Those of its rules that are kept to.
    days
        How many of the working days there are.
    held
        What others have taken of them.
    """

    def __init__(
        self, problem: Problem, rules: Collection[Rule], days: int, held: Held | None = None
    ) -> None:
        self._problem, self._rules, self._days = problem, rules, days
        self._taken = held or Held()
        self.program = cp_model.CpModel()
        self.jobs = [self._stages(job) for job in problem.jobs]
        self._kinds = {rule.kind for rule in rules}
        self.last = self.program.new_int_var(0, max(0, days - 1), "last day")
        for number, job in enumerate(problem.jobs):
            self._bind(number, job)
        for own, (first, after) in zip(self.jobs, self._taken.within, strict=False):
            self.program.add(own[0].start >= first)
            self.program.add(own[-1].end <= after)
        self._share()
        # What follows from the rest is said, so that less is left to be found out.
        self.program.add(self.last >= soonest_last_day(problem, self._kinds, days))
        self.nights = self._nights()

    def _stages(self, job: Job) -> list[StageVars]:
        size, program = self._problem.slots_a_day, self.program
        found: list[StageVars] = []
        for stage in job.stages:
            name = f"{job.name} {stage.name}"
            first = program.new_int_var(0, self._days - 1, f"{name} first day")
            # What fits into a day begins early enough to end on it; what does not, at any hour.
            room = size - stage.slots if stage.slots <= size else size - 1
            start = program.new_int_var(0, self._days * size - stage.slots, name)
            program.add(start == size * first + program.new_int_var(0, room, f"{name} hour"))
            end = start + stage.slots
            last = first
            if stage.slots > size:
                last = program.new_int_var(0, self._days - 1, f"{name} last day")
                left = program.new_int_var(0, size - 1, f"{name} last hour")
                program.add(end - 1 == size * last + left)
            busy = program.new_interval_var(start, stage.slots, end, name)
            found.append(StageVars(start, end, first, last, busy))
        for stage, one, following in zip(job.stages, found, found[1:], strict=False):
            # A stage follows when the one before has ended and been left alone for its days.
            program.add(following.start >= one.end)
            if stage.wait:
                program.add(following.first_day >= self._day_after(one.last_day, stage.wait))
        return found

    def _day_after(self, day: Any, wait: int) -> Any:  # noqa: ANN401 - the solver's own types
        """Give the first working day so many days of the calendar later."""
        days = self._problem.days[: self._days]
        table = [bisect_left(days, one + wait) for one in days]
        later = self.program.new_int_var(0, self._days, "later")
        self.program.add_element(day, table, later)
        return later

    def _date(self, day: Any, name: str) -> Any:  # noqa: ANN401 - the solver's own types
        """Give the day of the calendar of a working day."""
        days = self._problem.days[: self._days]
        date = self.program.new_int_var(days[0], days[-1], name)
        self.program.add_element(day, list(days), date)
        return date

    def _bind(self, number: int, job: Job) -> None:
        """Keep what concerns one job."""
        program, own = self.program, self.jobs[number]
        program.add(self.last >= own[-1].last_day)
        if self._has("after", number):
            for other in job.after:
                program.add(own[0].start >= self.jobs[other][-1].end)
        if self._has("done", number):
            for stage, start in zip(own, job.begun, strict=False):
                program.add(stage.start == start)
        for stage in own[len(job.begun) :] if self._problem.resume is not None else ():
            program.add(stage.start >= self._problem.first_free_slot)
        if self._has("barred", number):
            # On each barred day the job has ended before it or begins after it.
            for day in sorted(job.barred):
                ends = program.new_bool_var(f"{job.name} before {day}")
                before = bisect_left(self._problem.days, day) - 1
                after = bisect_left(self._problem.days, day + 1)
                program.add(own[-1].last_day <= before).only_enforce_if(ends)
                program.add(own[0].first_day >= after).only_enforce_if(ends.negated())

    def _has(self, kind: str, number: int) -> bool:
        return any(rule.kind == kind and rule.job == number for rule in self._rules)

    def _share(self) -> None:
        """Keep to what there is of people, benches, places for pieces, and days."""
        problem, program = self._problem, self.program
        stages = [
            (stage, one)
            for job, own in zip(problem.jobs, self.jobs, strict=True)
            for stage, one in zip(job.stages, own, strict=True)
        ]
        busy = [self._fixed(first, slots) for first, slots, _ in self._taken.busy]
        at_bench = [self._fixed(first, slots) for first, slots, is_at in self._taken.busy if is_at]
        if "crew" in self._kinds:
            busy += [one.busy for _, one in stages]
            program.add_cumulative(busy, [1] * len(busy), problem.crew)
        if "benches" in self._kinds:
            at_bench += [one.busy for stage, one in stages if stage.at_bench]
            program.add_cumulative(at_bench, [1] * len(at_bench), problem.benches)
        if "out" in self._kinds:
            apart = [
                program.new_interval_var(
                    own[0].start,
                    program.new_int_var(1, self._days * problem.slots_a_day, "apart"),
                    own[-1].end,
                    f"{job.name} apart",
                )
                for job, own in zip(problem.jobs, self.jobs, strict=True)
            ]
            apart += [self._fixed(first, slots) for first, slots, _ in self._taken.apart]
            pieces = [job.pieces for job in problem.jobs]
            pieces += [pieces for _, _, pieces in self._taken.apart]
            program.add_cumulative(apart, pieces, problem.out)
        if "deadline" in self._kinds and problem.deadline is not None:
            program.add(self.last <= bisect_left(problem.days, problem.deadline + 1) - 1)

    def _fixed(self, first: int, count: int) -> Any:  # noqa: ANN401 - the solver's own types
        return self.program.new_fixed_size_interval_var(first, count, "held")

    def _nights(self) -> Any:  # noqa: ANN401 - the solver's own types
        """Board what is open at night, no more than there are boards; give all nights together."""
        program, intervals, nights = self.program, [], []
        most = self._problem.days[self._days - 1] - self._problem.days[0]
        for job, own in zip(self._problem.jobs, self.jobs, strict=True):
            if len(own) == 1 and job.stages[0].slots <= self._problem.slots_a_day:
                continue  # over within a day
            opened = self._date(own[0].first_day, f"{job.name} opened")
            closed = self._date(own[-1].last_day, f"{job.name} closed")
            count = program.new_int_var(0, most, f"{job.name} nights")
            intervals.append(program.new_interval_var(opened, count, closed, f"{job.name} boarded"))
            nights.append(count)
        if "boards" in self._kinds:
            intervals += [self._fixed(first, count) for first, count in self._taken.nights]
            program.add_cumulative(intervals, [1] * len(intervals), self._problem.boards)
            if not self._problem.boards:
                for count in nights:
                    program.add(count == 0)
        return sum(nights)

    def moves(self) -> Any:  # noqa: ANN401 - the solver's own types
        """Give how many stages are done on other days than was wished; a whole job counts for more.

        A job counts for more than all stages there are, so that fewest jobs are moved first.
        """
        most = 1 + sum(len(job.wished) for job in self._problem.jobs)
        moved = []
        for job, own in zip(self._problem.jobs, self.jobs, strict=True):
            if not job.wished:
                continue
            stays_whole = self.program.new_bool_var(f"{job.name} stays")
            moved.append(most * stays_whole.negated())
            for stage, (first, last) in zip(own, job.wished, strict=True):
                stays = self.program.new_bool_var(f"{job.name} stays")
                self._keeps(stage.first_day, first, stays)
                self._keeps(stage.last_day, last, stays)
                self.program.add_implication(stays_whole, stays)
                moved.append(stays.negated())
        return sum(moved)

    def _keeps(self, day: Any, wished: int, stays: Any) -> None:  # noqa: ANN401 - the solver's own
        """Have a working day be the one that was wished, if it is said to stay."""
        place = bisect_left(self._problem.days, wished)
        if self._problem.days[place : place + 1] == (wished,):
            self.program.add(day == place).only_enforce_if(stays)
        else:
            self.program.add(stays == 0)

    def hint(self, starts: tuple[tuple[int, ...], ...]) -> None:
        """Tell the solver of a schedule to begin from."""
        size = self._problem.slots_a_day
        for own, slots in zip(self.jobs, starts, strict=True):
            for stage, slot in zip(own, slots, strict=True):
                self.program.add_hint(stage.first_day, slot // size)
