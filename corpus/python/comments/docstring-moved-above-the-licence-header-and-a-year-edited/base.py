# encoding: utf-8
#    Copyright (C) 2021-2024 by
#    the tideboard authors
"""Readings of a gauge."""
import tides
