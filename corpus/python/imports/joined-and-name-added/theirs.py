from tideboard.model import High
from tideboard.model import Low, Spring

KINDS = [High, Low]
