"""May these people do this task now, or at a moment; if not, why not, and what would mend it?

    obstacle.py   one reason, as data: a code, what and whom it is about, whether it yields
    needs.py      what a task asks of whoever works on it: numbers, skills, certificates, age
    people.py     what stands against people, and the smallest crew that could do a task
    party.py      who is on each task, in which part; what a working party lacks
    on_it.py      who is at which work now
    left_short.py   whom dangerous work cannot spare; what goes on with too few people
    ends_late_news.py  what goes on and no longer ends in time for its watch
    apart.py      which dangers are kept apart
    moment.py     what stands against the moment: what is going on near, clocks, closing, the day
    ask.py        may these people begin this task?
    room.py      whether a place takes one more job
    in_one_go.py what must not be left half done
    day.py        which tasks some of a day's people may do, for the ranking and the day plan
    moment_words.py  the words of what stands against the moment
    training.py   under-18s whom a lead lets take part for training
    words.py, words_of_people.py   the sentence of each reason, and how it is mended
    short.py      the same in few words, for lists

The ranking, `begin`, the day plan, the forecast and the safety talk all ask here. None of them
keeps a rule of its own.
"""
