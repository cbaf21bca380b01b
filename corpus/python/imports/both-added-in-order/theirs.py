import argparse
import inspect
import itertools
import os

from tideboard import fetch
