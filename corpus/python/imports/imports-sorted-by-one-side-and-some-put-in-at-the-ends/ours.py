"""Tide forecasts on the quayside box."""

import json
import math
import os

import tide

from harbour import berths
from harbour.clock import quay_time

print(quay_time(), berths, json, tide, os, math)
