# -*- encoding: utf-8 -*-
#    Copyright (C) 2021-2026 by
#    the tideboard authors
#    All rights reserved.
"""
Readings of a gauge.
"""
import tides

__all__ = ['read', 'latest']


def read(gauge):
    return tides.read(gauge)
