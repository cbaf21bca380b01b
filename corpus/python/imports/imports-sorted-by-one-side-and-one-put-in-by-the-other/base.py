"""Tide forecasts on the quayside box."""

import json
import tide
import os
from harbour.clock import quay_time
from harbour import berths
import math

print(quay_time(), berths, json, tide, os, math)
