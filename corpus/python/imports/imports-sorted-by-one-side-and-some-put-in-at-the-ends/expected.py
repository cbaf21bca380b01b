"""Tide forecasts on the quayside box."""

import array
import json
import math
import os

import tide

from harbour import berths
from harbour.clock import quay_time
from harbour.tug import tow

print(quay_time(), berths, json, tide, os, math)
