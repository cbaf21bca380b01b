import os
from quay.net import Reply
