import os
from quay.net import Request, Reply
