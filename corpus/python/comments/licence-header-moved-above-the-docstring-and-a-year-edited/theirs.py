# encoding: utf-8
"""
Readings of a gauge.
"""
#    Copyright (C) 2021-2026 by
#    the tideboard authors
#    All rights reserved.
import tides
__all__ = ['read', 'latest']

def read(gauge):
    return tides.read(gauge)
