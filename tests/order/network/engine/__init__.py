"""Networks of activities as such: no tasks, no crew, no calendar, numbers only.

    precedence      network(count, links) -> Network; Loop; longest_tail
    critical_path   critical_path(durations, links) -> EarlyAndLate: earliest, latest, floats, path
    calendar_path   along_calendar(net, onward, back) -> CalendarTimes, by two functions handed in
    time_lags       earliest_starts(count, lags): start-to-start lags, least and greatest
    pert            ThreePoint(a, m, b): mean, variance, draw; chance_by(time, mean, variance)
    resources       Project(durations, links, demands, capacities) and Schedule
    search          schedule(project, schedules=1000, seed=0) -> Schedule
    feasibility     violations(project, starts): checked apart from what makes schedules

`ways`, `generation` and `genetic` are what `search` is made of. Import the module you need:
nothing is imported here.
"""
