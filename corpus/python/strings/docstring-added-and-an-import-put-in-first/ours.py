"""The board."""

import os

x = os.name