import argparse
import inspect
import os

from tideboard import fetch
