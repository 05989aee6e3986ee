"""The record of the vehicle: what was found and done, and what it is made of now.

`fabric_of(plan, logbook, at)` is the second pure function beside `order.assess`. Nothing of it is
stored: state, whereabouts and shares follow from the entries.
"""
