"""Moon phases for the chart."""

import math

CYCLE = 29.530588


def phase(day):
    return (day.toordinal() % CYCLE) / CYCLE


def illumination(day):
    return (1 - math.cos(2 * math.pi * phase(day))) / 2
