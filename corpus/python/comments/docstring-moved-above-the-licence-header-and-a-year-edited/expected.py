# encoding: utf-8
"""
Readings of a tide gauge.
"""
__author__ = "the tideboard authors"
#    Copyright (C) 2021-2026 by
#    the tideboard authors
import tides
