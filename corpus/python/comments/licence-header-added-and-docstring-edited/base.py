"""Tide feeds of the dashboard."""
import sys

from tideboard import model
