# Part of tideboard, under the licence in LICENSE.
# The fork of the harbour authority.
"""Feeds and gauges of the dashboard."""
import sys

from tideboard import model
