"""Moon phases for the chart."""

import math
from datetime import date

<<<<<<< ours
CYCLE = 29.53
=======
CYCLE = 29.530588
>>>>>>> theirs


def phase(day):
    return (day.toordinal() % CYCLE) / CYCLE


def is_spring(day):
    return min(phase(day), 1 - phase(day)) < 0.1


def illumination(day):
    return (1 - math.cos(2 * math.pi * phase(day))) / 2
