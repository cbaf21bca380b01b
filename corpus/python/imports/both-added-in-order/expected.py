import argparse
import inspect
import itertools
import logging
import os

from tideboard import fetch
