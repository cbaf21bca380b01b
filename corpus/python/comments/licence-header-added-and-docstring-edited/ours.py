# Part of tideboard, under the licence in LICENSE.
# The fork of the harbour authority.
"""Tide feeds of the dashboard."""
import sys

from tideboard import model
