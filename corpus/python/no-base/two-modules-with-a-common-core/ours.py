"""Moon phases for the chart."""

import math
from datetime import date

CYCLE = 29.53


def phase(day):
    return (day.toordinal() % CYCLE) / CYCLE


def is_spring(day):
    return min(phase(day), 1 - phase(day)) < 0.1
