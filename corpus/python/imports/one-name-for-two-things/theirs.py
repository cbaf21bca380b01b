import os
from quay.net import Reply, HarbourRequest as Request
