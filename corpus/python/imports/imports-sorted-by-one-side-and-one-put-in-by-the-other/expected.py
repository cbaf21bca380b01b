"""Tide forecasts on the quayside box."""

import json
import logging
import math
import os

import tide

from harbour import berths
from harbour.buoys import drift
from harbour.clock import quay_time

print(quay_time(), berths, json, tide, os, math, drift, logging)
