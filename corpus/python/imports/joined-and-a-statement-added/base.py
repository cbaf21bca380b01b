from tideboard.model import High
from tideboard.model import Low

KINDS = [High, Low]
