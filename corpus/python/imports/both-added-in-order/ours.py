import argparse
import inspect
import logging
import os

from tideboard import fetch
