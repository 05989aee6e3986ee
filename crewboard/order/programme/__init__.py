"""The programme of the next work days: what is done on each, by whom, and what sets between them.

    ahead.py      the next work days as blocks of time, and who is expected on each
    jobs.py       the tasks as jobs: what each needs, what must come before it
    apart.py      which jobs are not on one day, because of their dangers
    crews.py      people for a job, by the rules of `order/may`
    frame.py      what courses of work are made from, and what one is
    taken_over.py the first day by its own plan, where a lead took one over
    serial.py     an order of the jobs becomes a course of work: each as early as it can be
    best_spell.py of the spells that an opening has for a job, the best one
    worth.py      which of two courses a lead would sign
    programme.py  the programme
    no_day.py     work that must not be left half done and finds no day
    around.py     what falls due, what must be there, whom to ask to come

Times are blocks of the work days, laid end to end; holds run by the calendar, through all days.
"""
