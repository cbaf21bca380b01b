"""Feeds and gauges of the dashboard."""
import sys

from tideboard import model
