from __future__ import with_statement
import json
import os


def draw(rows):
    return rows
